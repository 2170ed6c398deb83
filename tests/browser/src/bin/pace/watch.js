// Before each page: when the start screen could be used, how long each tap took until the page had
// painted a frame, and how long until the screen that it brought; and what the browser's own Event
// Timing says, which counts until that frame stands on the screen. Not the keys, which nobody counts
// beside the taps. Kept for the tab, since a page is loaded more than once in a case.
{
  const kept = JSON.parse(sessionStorage.getItem("pace") ?? '{"starts":[],"frames":[],"slow":[],"screens":[],"events":[]}');
  const keep = () => sessionStorage.setItem("pace", JSON.stringify(kept));

  const seen = new MutationObserver(() => {
    if (!document.querySelector("#app h1, #app h2")) return;
    seen.disconnect();
    // After the frame that shows it.
    requestAnimationFrame(() => setTimeout(() => {
      kept.starts.push(performance.now());
      keep();
    }));
  });
  seen.observe(document, { childList: true, subtree: true });

  const heading = () => [...document.querySelectorAll("#app h1, #app dialog h2")].map((one) => one.textContent).join();
  let tapped = null;
  addEventListener("click", ({ timeStamp, target }) => {
    tapped = { at: timeStamp, on: heading() };
    const on = (target.closest("button, label, a") ?? target).textContent.slice(0, 40);
    requestAnimationFrame(() => setTimeout(() => {
      kept.frames.push(performance.now() - timeStamp);
      kept.slow.push([Math.round(kept.frames.at(-1)), on, heading()]);
      keep();
    }));
  }, true);
  new MutationObserver(() => {
    if (!tapped || heading() === tapped.on) return;
    const { at } = tapped;
    tapped = null;
    requestAnimationFrame(() => setTimeout(() => {
      kept.screens.push(performance.now() - at);
      keep();
    }));
  }).observe(document, { childList: true, subtree: true, characterData: true });

  new PerformanceObserver((list) => {
    for (const { interactionId, duration, name, startTime, target } of list.getEntries()) {
      if (!interactionId || !["pointerdown", "pointerup", "click"].includes(name)) continue;
      const page = Math.round(performance.timeOrigin);
      kept.events.push({ id: `${page} ${interactionId}`, duration, name, at: startTime, on: target?.textContent?.slice(0, 40) });
    }
    keep();
  }).observe({ type: "event", durationThreshold: 16, buffered: true });
}
