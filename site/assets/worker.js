// What runs in the worker: it inflates and starts the program (wasm_exec.js of
// the building Go stands above this text), then answers one call at a time.
//
// To it:    {start: {module | packed}}   {id, call, slug, args}   {practise: {slug, text, charts}}
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

let asked = false; // whether a question has come

/**
 * Works a document a few times while nothing is asked. The browser compiles
 * what has run for a while into quicker code, so that the first question is
 * answered as quickly as the tenth.
 */
function practise({ slug, text, charts }) {
  const rounds = 12;
  const most = 800; // ms
  const began = performance.now();
  const next = (round) => {
    if (asked || round === rounds || performance.now() - began > most) return;
    self.thouspan.work(slug, text, "metric", charts);
    setTimeout(next, 10, round + 1); // a question may come between
  };
  next(0);
}

self.onmessage = ({ data }) => {
  if (data.start) {
    start(data.start).catch(fail);
    return;
  }
  try {
    if (data.practise) {
      practise(data.practise);
      return;
    }
    asked = true;
    postMessage({ id: data.id, answer: self.thouspan[data.call](data.slug, ...data.args) });
  } catch (reason) {
    fail(reason);
  }
};
