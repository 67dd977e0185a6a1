// What runs in the worker: it inflates and starts the program (wasm_exec.js of
// the building Go stands above this text), then answers one call at a time.
//
// To it:    {start: {module | packed}}   {id, slug, text}   {id, slug, call, args}
// From it:  {ready: true, module}  {id, answer}  {failed: words}
"use strict";

/** Inflates base64 of gzip into bytes. */
async function unpack(packed) {
  const binary = atob(packed);
  const bytes = new Uint8Array(binary.length);
  for (let i = 0; i < binary.length; i++) bytes[i] = binary.charCodeAt(i);
  const inflated = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(inflated).arrayBuffer();
}

/** Compiles, unless compiled before, and starts the program. */
async function start({ module, packed }) {
  if (!module) module = await WebAssembly.compile(await unpack(packed));
  const go = new Go();
  const instance = await WebAssembly.instantiate(module, go.importObject);
  go.run(instance).then(() => postMessage({ failed: "the program ended" }), fail);
  if (!self.thouspan) throw new Error("the program did not start");
  try {
    postMessage({ ready: true, module });
  } catch {
    postMessage({ ready: true }); // a browser that does not pass programs on
  }
}

/** Tells the page why there will be no answer. */
function fail(reason) {
  postMessage({ failed: String((reason && reason.message) || reason) });
}

self.onmessage = ({ data }) => {
  if (data.start) {
    start(data.start).catch(fail);
    return;
  }
  try {
    postMessage({ id: data.id, answer: self.thouspan[data.call || "work"](data.slug, ...(data.args || [data.text])) });
  } catch (reason) {
    fail(reason);
  }
};
