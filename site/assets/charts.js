// Charts that answer: ECharts takes the place of the picture drawn into the
// page as soon as there is a reason to (a pointer, the keyboard, new figures,
// another choice of units) and the chart is near what is seen.
"use strict";

(() => {
  const { meta, loadScript } = window.thouspan;
  const root = document.documentElement;
  const address = meta("echarts");
  const own = meta("chart-options"); // the file with the options of the demo's charts
  const tokens = JSON.parse(document.getElementById("tokens")?.textContent || "[]");
  const spoken = document.createElement("p");
  spoken.className = "visually-hidden";
  spoken.setAttribute("aria-live", "polite");

  /** The option with the page's present colours in place of the tokens'. */
  function coloured(option, element) {
    const style = getComputedStyle(element);
    const colours = new Map(tokens.map(({ name, colour }) => [colour, style.getPropertyValue("--" + name).trim() || colour]));
    const replace = (key, value) => {
      if (key === "fontFamily") return style.fontFamily;
      return typeof value === "string" && colours.has(value) ? colours.get(value) : value;
    };
    return JSON.parse(JSON.stringify(option), replace);
  }

  /** One chart of the page. */
  class Chart {
    constructor(figure) {
      this.figure = figure;
      this.plot = figure.querySelector(".plot");
      this.options = null; // by system of units; null until the demo's are read
      this.drawn = ""; // the option that stands drawn, and in which light
      this.near = false;
      this.wanted = false;
      this.chart = null;
      this.at = null; // the point that the keyboard is at: [series, point]
    }

    /** Makes the chart reachable, if there is something to bring alive. */
    listen() {
      const title = this.figure.querySelector("figcaption b")?.textContent || "";
      this.plot.tabIndex = 0;
      this.plot.setAttribute("role", "group");
      this.plot.setAttribute("aria-label", `Chart: ${title} Arrow keys read its points.`);
      for (const kind of ["pointerenter", "pointerdown", "focusin"]) {
        this.plot.addEventListener(kind, () => this.want(), { once: true });
      }
      this.plot.addEventListener("keydown", (event) => this.press(event));
      this.plot.addEventListener("focusout", () => this.chart && this.chart.dispatchAction({ type: "hideTip" }));
    }

    /** New figures: the caption and the table at once, the plot when it is near. */
    take(item) {
      this.options = item.option || {};
      this.at = null;
      const fresh = document.createElement("template");
      fresh.innerHTML = item.block;
      for (const selector of ["figcaption", "details.data"]) {
        const old = this.figure.querySelector(":scope > " + selector);
        const next = fresh.content.querySelector(selector);
        if (!old || !next) continue;
        if (old.matches("details")) window.thouspan.replaceInside(old, next.innerHTML);
        else old.innerHTML = next.innerHTML;
        old.hidden = next.hidden;
      }
      // These readings give no chart: its numbers are hidden too.
      this.plot.hidden = Boolean(fresh.content.querySelector("details.data[hidden]"));
      this.want();
    }

    /** The option in the units chosen, once the program has been asked for it. */
    option() {
      return this.options?.[root.dataset.units];
    }

    /** Whether there is a chart to draw and no option to draw it by. */
    lacks() {
      return !this.plot.hidden && Boolean(this.options) && !this.option();
    }

    /** Reads the demo's options, unless new figures came first. */
    async readOwn() {
      try {
        await loadScript(new URL(own, document.baseURI).href);
      } catch {
        return; // the picture stays
      }
      this.options ??= window.thouspan.chartOptions[this.figure.dataset.item] || {};
      this.want();
    }

    want() {
      this.wanted = !this.plot.hidden;
      if (!this.near || !this.wanted) return;
      if (!this.options) this.readOwn();
      else if (this.lacks()) document.dispatchEvent(new CustomEvent("lacking"));
      else this.draw();
    }

    /** Draws the wanted state; the first time it takes the picture's place. */
    async draw() {
      this.wanted = false;
      try {
        await loadScript(address);
      } catch {
        // The picture is no longer that of these figures: leave the table.
        this.plot.replaceChildren();
        this.figure.querySelector("details.data").open = true;
        return;
      }
      if (!this.chart) {
        const place = document.createElement("div");
        place.style.height = this.plot.dataset.height + "px";
        this.plot.replaceChildren(place);
        this.chart = window.echarts.init(place, null, { renderer: "svg" });
        new ResizeObserver(() => this.chart.resize()).observe(place);
      }
      this.redraw();
    }

    redraw() {
      if (!this.chart || !this.option()) return;
      const option = coloured(this.option(), this.plot);
      const text = JSON.stringify(option);
      if (text !== this.drawn) this.chart.setOption({ ...option, animation: false }, true);
      this.drawn = text;
    }

    /** The series that can be read point by point, as lists of point numbers. */
    points() {
      const list = [];
      [].concat(this.option()?.series || []).forEach((series, number) => {
        if (series.silent || !Array.isArray(series.data)) return;
        const told = series.data.flatMap((point, i) => (point && point.name ? [i] : []));
        if (told.length) list.push({ number, series, told });
      });
      return list;
    }

    /** The arrows go from point to point and from series to series. */
    press(event) {
      const step = { ArrowRight: [0, 1], ArrowLeft: [0, -1], ArrowDown: [1, 0], ArrowUp: [-1, 0] }[event.key];
      const list = step && this.chart ? this.points() : [];
      if (event.key === "Escape" && this.chart) this.chart.dispatchAction({ type: "hideTip" });
      if (!list.length) return;
      event.preventDefault();
      const [s, p] = this.at || [0, step[1] < 0 ? 0 : -1];
      const series = Math.min(Math.max(s + step[0], 0), list.length - 1);
      const { number, series: { name }, series: { data }, told } = list[series];
      const point = Math.min(Math.max(p + step[1], 0), told.length - 1);
      this.at = [series, point];
      this.chart.dispatchAction({ type: "showTip", seriesIndex: number, dataIndex: told[point] });
      spoken.textContent = [name, data[told[point]].name].filter(Boolean).join(", ");
    }
  }

  const charts = new Map([...document.querySelectorAll("figure.chart")].map((figure) => [figure, new Chart(figure)]));
  /** The names of the charts, or of those near what is seen, with commas between. */
  window.thouspan.charts = (near) => [...charts.values()].filter((chart) => chart.near || !near).map((chart) => chart.figure.dataset.item).join(",");
  /** Whether any chart waits for its option. */
  window.thouspan.chartsLack = () => [...charts.values()].some((chart) => chart.lacks());
  document.addEventListener("figures", ({ detail }) => {
    for (const [figure, chart] of charts) {
      if (Object.hasOwn(detail, figure.dataset.item)) chart.take(detail[figure.dataset.item]);
    }
  });
  if (!address) return; // the pages were built without charts: each is a table

  document.body.append(spoken);
  // Whoever enters the form will want charts anew.
  document.querySelector("form.readings")?.addEventListener("focusin", () => loadScript(address).catch(() => {}), { once: true });
  const watch = new IntersectionObserver((entries) => {
    for (const { target, isIntersecting } of entries) {
      const chart = charts.get(target);
      chart.near = isIntersecting;
      if (isIntersecting && chart.wanted) chart.want();
    }
  }, { rootMargin: "400px" });
  for (const [figure, chart] of charts) {
    chart.listen();
    watch.observe(figure);
    if (root.dataset.units !== "metric") chart.want(); // pictures are drawn in metric units
  }
  const everyChart = (act) => { for (const chart of charts.values()) act(chart); };
  document.addEventListener("look", () => everyChart((chart) => {
    if (chart.chart && chart.option()) chart.redraw();
    else if (chart.chart || root.dataset.units !== "metric") chart.want();
  }));
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => everyChart((chart) => chart.redraw()));
  matchMedia("print").addEventListener("change", () => everyChart((chart) => chart.redraw()));
})();
