// Exercises with new numbers: drawn and marked by the lessons' program. The
// exercise as it is printed, with its folded answer, stands above each.
"use strict";

(() => {
  const { meta, Calculator } = window.thouspan;
  const calculator = new Calculator(meta("live"));
  const draws = 1000000; // as many as the program knows
  let right = 0; // answers at this sitting, on the first look

  /** One exercise that can be drawn anew. */
  class Drill {
    constructor(place) {
      this.place = place;
      this.slug = place.dataset.lesson;
      this.name = place.dataset.drill;
      this.button = place.querySelector("button.draw");
      this.form = place.querySelector("form");
      this.box = place.querySelector("input");
      this.said = place.querySelector(".said");
      this.answer = place.querySelector("details");
      this.button.addEventListener("click", () => this.draw());
      this.form.addEventListener("submit", (event) => { event.preventDefault(); this.mark(); });
      this.box.addEventListener("input", () => this.say("", ""));
      this.answer.addEventListener("toggle", () => { if (this.answer.open) this.open = false; });
      place.hidden = false;
    }

    /** Asks the program; null when there is no answer, and then says why. */
    async ask(call, ...args) {
      const waiting = setTimeout(() => this.say("", calculator.module ? "Computing…" : "Getting ready to compute…"), 150);
      try {
        const answer = await calculator.call(`${call} ${this.name}`, call, this.slug, this.name, ...args);
        if (answer && answer.problem) throw new Error(answer.problem);
        return answer;
      } catch (reason) {
        this.say("unread", reason ? "This cannot be computed here: " + reason.message : "Stopped.");
        return null;
      } finally {
        clearTimeout(waiting);
      }
    }

    async draw() {
      const seed = Math.floor(Math.random() * draws);
      const drawn = await this.ask("drill", seed);
      if (!drawn) return;
      this.form.hidden = this.answer.hidden = false;
      this.seed = seed;
      this.open = true; // whether a right answer counts
      this.place.querySelector(".fresh").innerHTML = drawn.ask;
      this.place.querySelector(".help").innerHTML = `${drawn.help} <span class="number">Draw ${seed}.</span>`;
      this.answer.open = false;
      this.answer.querySelector("div").innerHTML = drawn.solution;
      this.say("", "");
      this.box.value = "";
      this.box.removeAttribute("aria-invalid");
      this.button.textContent = "Again, with other numbers";
      this.box.focus();
    }

    async mark() {
      const { seed } = this;
      if (seed === undefined) return;
      const typed = this.box.value;
      const marked = await this.ask("mark", seed, typed);
      if (!marked || seed !== this.seed || typed !== this.box.value) return;
      this.say(marked.grade, marked.said);
      if (marked.grade !== "right" || !this.open) return;
      this.open = false;
      right++;
      for (const tally of document.querySelectorAll(".drill .tally")) {
        tally.textContent = right === 1 ? "One right at this sitting." : `${right} right at this sitting.`;
        tally.hidden = false;
      }
    }

    /** Says how an answer was taken. */
    say(grade, html) {
      this.said.dataset.grade = grade;
      this.said.innerHTML = html;
      this.box.toggleAttribute("aria-invalid", false);
      if (grade && grade !== "right") this.box.setAttribute("aria-invalid", "true");
    }
  }

  for (const place of document.querySelectorAll(".drill")) new Drill(place);
})();
