// Finding: ranks what the index holds against what somebody typed. It touches
// no page, so that the tests run it by itself. See site/book/search.go for the
// index.
"use strict";

(() => {
  /** The index's words, in order, each with its documents, parsed when asked for. */
  function open(raw) {
    const words = new Map();
    for (const line of raw.words.split("\n")) {
      const cut = line.indexOf(" ");
      if (cut > 0) words.set(line.slice(0, cut), line.slice(cut + 1));
    }
    const same = new Map();
    for (const group of raw.same) {
      for (const word of group) same.set(word, (same.get(word) || []).concat(group.filter((other) => other !== word)));
    }
    return { docs: raw.docs, words, list: [...words.keys()], same, stop: new Set(raw.stop), postings: new Map() };
  }

  /** The documents of a word, [[document, weight], …]. */
  function postings(index, word) {
    if (!index.postings.has(word)) {
      let doc = 0;
      index.postings.set(word, [...index.words.get(word).matchAll(/([0-9a-z]+)([A-Z])/g)].map(([, step, letter]) => {
        doc += parseInt(step, 36);
        return [doc, letter.charCodeAt(0) - 65];
      }));
    }
    return index.postings.get(word);
  }

  /** Whether two words differ by one letter: put in, left out, changed, or two swapped. */
  function oneWrong(a, b) {
    if (Math.abs(a.length - b.length) > 1) return false;
    let i = 0;
    while (i < a.length && a[i] === b[i]) i++;
    if (a.length === b.length) {
      return a.slice(i + 1) === b.slice(i + 1) || (a[i] === b[i + 1] && a[i + 1] === b[i] && a.slice(i + 2) === b.slice(i + 2));
    }
    return a.length > b.length ? a.slice(i + 1) === b.slice(i) : a.slice(i) === b.slice(i + 1);
  }

  /** A word and what is left of it without an ending. */
  function forms(word) {
    const list = [word];
    for (const ending of ["s", "es", "ed", "ing"]) {
      if (!word.endsWith(ending) || word.length - ending.length < 3) continue;
      const stem = word.slice(0, -ending.length);
      list.push(stem, stem + "e");
      if (stem.at(-1) === stem.at(-2)) list.push(stem.slice(0, -1));
    }
    return list;
  }

  /** The index's words that a typed word can mean, each with how surely, 0 to 1. */
  function meant(index, typed) {
    const sure = new Map();
    const take = (word, how) => {
      if (index.words.has(word)) sure.set(word, Math.max(sure.get(word) || 0, how));
    };
    forms(typed).forEach((form, i) => take(form, i ? 0.9 : 1));
    if (typed.length > 1) {
      for (const word of index.list) {
        if (word.startsWith(typed) && word !== typed) take(word, 0.45 + 0.4 * (typed.length / word.length));
      }
    }
    for (const form of forms(typed)) for (const other of index.same.get(form) || []) take(other, 0.5);
    if (!sure.size && typed.length > 3) {
      for (const word of index.list) {
        if (oneWrong(typed, word)) take(word, 0.6);
        else if (word.length > typed.length && oneWrong(typed, word.slice(0, typed.length))) take(word, 0.4);
      }
    }
    return sure;
  }

  const kinds = { lesson: 1.5, term: 1.3, page: 1.1, section: 1, formula: 0.7 };
  const perPage = 3;

  /** The typed text in words, without those that are everywhere. */
  function typedWords(index, text) {
    return (text.toLowerCase().match(/[a-z0-9µà-ɏͰ-Ͽ]+(?:['’-][a-z0-9µà-ɏͰ-Ͽ]+)*/g) || [])
      .map((word) => word.replace(/['’]s/g, "").replaceAll("-", ""))
      .filter((word) => word && !index.stop.has(word));
  }

  /** What is found, the best first: [{kind, address, title, where, excerpt, score}, …]. */
  function find(index, text, most = 30) {
    const typed = typedWords(index, text);
    const scores = new Map(); // document -> [sum, words that hit]
    for (const word of typed) {
      const best = new Map();
      for (const [hit, how] of meant(index, word)) {
        const list = postings(index, hit);
        const rare = Math.log(1 + index.docs.length / list.length);
        for (const [doc, weight] of list) best.set(doc, Math.max(best.get(doc) || 0, how * rare * weight));
      }
      for (const [doc, score] of best) {
        const [sum, hits] = scores.get(doc) || [0, 0];
        scores.set(doc, [sum + score, hits + 1]);
      }
    }
    const whole = text.trim().toLowerCase();
    const list = [...scores].map(([doc, [sum, hits]]) => {
      const [kind, address, title, where, excerpt] = index.docs[doc];
      const name = title.toLowerCase();
      const named = name === whole ? 3 : name.includes(whole) ? 1.5 : 1;
      return { kind, address, title, where, excerpt, score: sum * (hits / typed.length) ** 2 * kinds[kind] * named };
    });
    list.sort((a, b) => b.score - a.score || (a.address < b.address ? -1 : 1));
    const counts = new Map();
    return list.filter(({ kind, address }) => {
      if (kind === "term") return true;
      const page = address.split("/")[0];
      counts.set(page, (counts.get(page) || 0) + 1);
      return counts.get(page) <= perPage;
    }).slice(0, most);
  }

  window.thouspan.openIndex = open;
  window.thouspan.find = find;
})();
