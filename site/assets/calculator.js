// The lessons' program in a worker, so that the page never stands still. The
// worker is made from a Blob, which also works from a disk (file:).
"use strict";

/**
 * One worker that answers one question at a time. Questions are of kinds: of
 * those of one kind that wait, only the newest is kept, and one that has run
 * for long gives way to a newer of its kind. A page has one calculator for each
 * address, however often it is made.
 */
window.thouspan.Calculator = class Calculator {
  static made = new Map();

  /** @param {string} address of the script that carries the program */
  constructor(address) {
    if (Calculator.made.has(address)) return Calculator.made.get(address);
    Calculator.made.set(address, this);
    this.address = address;
    this.practice = null; // {slug, text, charts} to work through once it has started
    this.module = null; // compiled, for a quick start after a cancel
    this.starting = null; // promise of a worker that is ready
    this.worker = null;
    this.running = null;
    this.waiting = new Map(); // one question of each kind, the oldest first
    this.count = 0; // of questions
    this.boots = 0; // of starts and stops
  }

  /** Starts the program, unless it has started. */
  start() {
    if (!this.starting) {
      this.starting = this.boot();
      this.starting.catch(() => { this.starting = null; });
    }
    return this.starting;
  }

  async boot() {
    if (!window.Worker || !window.WebAssembly || !window.DecompressionStream) {
      throw new Error("this browser is too old to run the program");
    }
    const boot = ++this.boots;
    await window.thouspan.loadScript(this.address);
    if (boot !== this.boots) throw new Error("it was stopped while it started");
    const { worker: source, packed } = window.thouspanLive;
    const address = URL.createObjectURL(new Blob([source], { type: "text/javascript" }));
    return new Promise((resolve, reject) => {
      const worker = new Worker(address);
      this.worker = worker;
      const fail = (words) => {
        if (this.worker !== worker) return;
        const reason = new Error(words);
        this.stop(reason);
        reject(reason);
      };
      worker.onerror = (event) => { event.preventDefault(); fail(event.message || "its worker was refused"); };
      worker.onmessage = ({ data }) => {
        if (data.ready) {
          URL.revokeObjectURL(address);
          this.module = data.module || null;
          resolve(worker);
          if (!this.running && this.practice) worker.postMessage({ practise: this.practice });
        } else if (data.failed) {
          fail(data.failed);
        } else if (this.running && data.id === this.running.id) {
          this.finish((question) => question.resolve(JSON.parse(data.answer)));
        }
      };
      worker.postMessage({ start: this.module ? { module: this.module } : { packed } });
    });
  }

  /**
   * Works a document, with the options of the charts named (with commas
   * between) in the system of units. Gives the answer, or null when a newer
   * question took its place.
   */
  ask(slug, text, units, charts) {
    return this.question("work", { call: "work", slug, args: [text, units, charts] });
  }

  /**
   * Calls another of the program's functions for a lesson. Gives the answer, or
   * null when a newer question of the same kind took its place.
   */
  call(kind, call, slug, ...args) {
    return this.question(kind, { call, slug, args });
  }

  question(kind, what) {
    return new Promise((resolve, reject) => {
      if (this.waiting.has(kind)) this.waiting.get(kind).resolve(null);
      this.waiting.delete(kind);
      this.waiting.set(kind, { id: ++this.count, kind, what, resolve, reject });
      this.next();
      this.overtake();
    });
  }

  /** Gives up a question that has run for long once a newer of its kind waits. */
  overtake() {
    clearTimeout(this.overtaking);
    const { running } = this;
    if (!this.module || !running || !this.waiting.has(running.kind)) return;
    const overdue = 800; // ms, a few times as long as a start anew takes
    const left = (running.began ?? performance.now()) + overdue - performance.now();
    if (left > 0) {
      this.overtaking = setTimeout(() => this.overtake(), left);
      return;
    }
    this.end();
    this.running = null;
    running.resolve(null);
    this.next();
  }

  next() {
    if (this.running || this.waiting.size === 0) return;
    const [[kind, question]] = this.waiting;
    this.waiting.delete(kind);
    this.running = question;
    this.start().then((worker) => {
      if (this.running !== question) return;
      question.began = performance.now();
      worker.postMessage({ id: question.id, ...question.what });
    }, (reason) => {
      if (this.running === question) this.finish(() => question.reject(reason));
    });
  }

  finish(settle) {
    const question = this.running;
    this.running = null;
    if (question) settle(question);
    this.next();
  }

  /** Ends the worker; the next question starts another. */
  end() {
    this.boots++;
    if (this.worker) this.worker.terminate();
    this.worker = this.starting = null;
  }

  /** Ends the worker and fails every question. */
  stop(reason) {
    this.end();
    for (const question of this.waiting.values()) question.resolve(null);
    this.waiting.clear();
    this.finish((question) => question.reject(reason));
  }
};
