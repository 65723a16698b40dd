/* What is measured inside the page, by the page's own clock (performance.now, milliseconds). */
(() => {
  const sounds = new Set(), play = HTMLMediaElement.prototype.play;
  HTMLMediaElement.prototype.play = function () { sounds.add(this); return play.call(this); };

  const frame = () => new Promise(requestAnimationFrame);
  const until = async holds => { while (!holds()) await frame(); return performance.now(); };
  const started = () => document.querySelector('rect.bar[tabindex="0"]');

  /** Milliseconds between frames while something happens in each. */
  async function frames(count, act) {
    const lengths = [];
    for (let i = 0, last = await frame(); i < count; i++) {
      act(i);
      const now = await frame();
      lengths.push(now - last);
      last = now;
    }
    return lengths;
  }

  globalThis.browsing = {
    paint: () => performance.getEntriesByName("first-contentful-paint")[0].startTime,

    async open(song) {
      const start = performance.now();
      document.querySelector(`tbody a[href$="${song}"]`).click();
      return await until(started) - start;
    },

    /** When the recording has been listened to and every claim weighed. */
    heard: () => until(() => document.querySelector(".saved")?.textContent.trim() === "Saved" && document.querySelector(".doubt-line")),

    scroll: count => frames(count, i => scrollTo({ top: i * (document.documentElement.scrollHeight - innerHeight) / count, behavior: "instant" })),

    async zoom(bars) {
      const select = document.querySelector(".top select"), rows = () => document.querySelectorAll(".row").length, before = rows(), start = performance.now();
      select.value = bars;
      select.dispatchEvent(new Event("change", { bubbles: true }));
      const lengths = [];
      for (let last = await frame(); rows() === before || !document.querySelector("rect.bar") || performance.now() - start < 500;) {
        const now = await frame();
        lengths.push(now - last);
        last = now;
      }
      return lengths;
    },

    /** From the press that decides to the row's change, to the end of reading again, and to the end of weighing all claims. */
    watch(row) {
      const said = document.querySelector(".saved"), told = [];
      this.decided = new Promise(resolve => {
        let start = 0, drawn = 0;
        addEventListener("keydown", e => { if (e.key === "Enter") start ||= performance.now(); }, { capture: true });
        const redrawn = new MutationObserver(() => { if (start) requestAnimationFrame(() => { drawn ||= performance.now(); }); });
        redrawn.observe(document.getElementById(`row-${row}`), { childList: true, subtree: true, characterData: true, attributes: true });
        const works = new MutationObserver(() => told.push([performance.now(), said.textContent.trim()]));
        works.observe(said, { childList: true, subtree: true, characterData: true });
        const watch = setInterval(() => {
          const now = performance.now(), still = now - Math.max(start, told.at(-1)?.[0] ?? 0);
          if (!drawn || said.textContent.trim() !== "Saved" || still < 1500) return;
          for (const observer of [redrawn, works]) observer.disconnect();
          clearInterval(watch);
          const reading = told.findLastIndex(([, text]) => text.includes("reading"));
          resolve([drawn - start, (told[reading + 1]?.[0] ?? drawn) - start, Math.max(drawn, told.at(-1)?.[0] ?? 0) - start]);
        }, 20);
      });
    },

    /** How far the line of the moment stands from what sounds, in milliseconds, frame by frame. */
    async apart(count) {
      const apart = [];
      for (let i = 0; i < count; i++) {
        await frame();
        const line = document.querySelector('line.moment[visibility="visible"]'), sound = [...sounds].find(s => !s.paused);
        if (!line || !sound) continue;
        const points = line.closest("svg").dataset.beats.split(" ").map(p => p.split(",").map(Number)), x = Number(line.getAttribute("x1"));
        const at = points.findIndex(p => p[1] > x);
        if (at < 1) continue;
        const [a, b] = [points[at - 1], points[at]];
        apart.push(1000 * (a[0] + (x - a[1]) / (b[1] - a[1]) * (b[0] - a[0]) - sound.currentTime));
      }
      return apart;
    },
  };
})();
