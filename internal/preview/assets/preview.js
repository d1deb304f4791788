// The script of a preview page. It listens to the server that the page came from:
// when the course was built again it loads the page again, at the place where the
// reader was, and when the course has errors it lays the list of them over it.
(() => {
  "use strict";

  // The preview's own pages say which site and which list of problems they show.
  const own = document.documentElement.dataset;
  const listed = own.trouble;
  let shown = own.site ?? siteOfPage();

  let stream = null;
  let dialog = null;
  let opener = null;

  // siteOfPage gives the name of the site that the page was taken from, which the
  // server sends beside it; undefined in browsers that do not tell.
  function siteOfPage() {
    const [page] = performance.getEntriesByType("navigation");
    return page?.serverTiming?.find((entry) => entry.name === "plait")?.description;
  }

  // kept reads and writes what outlives a reload. A browser may refuse to keep it.
  function kept(key, value) {
    try {
      if (value === undefined) return sessionStorage.getItem(`plait-preview/${key}`);
      sessionStorage.setItem(`plait-preview/${key}`, value);
    } catch {
      // Then the page starts at its top and shows the list again.
    }
    return null;
  }

  function follow(state) {
    shown ??= state.site;
    if (state.site !== shown || (listed !== undefined && state.trouble !== listed)) {
      reload(`${state.site} ${state.trouble}`);
    } else if (listed === undefined) {
      if (state.trouble) showProblems(state.trouble);
      else hideProblems();
    }
  }

  // reload happens once for each state: a page that comes back as old as it was
  // must not go round for ever.
  function reload(state) {
    const key = location.pathname + " " + state;
    if (kept("loaded") === key) return;
    kept("loaded", key);
    kept("place", JSON.stringify([location.pathname, scrollX, scrollY]));
    location.reload();
  }

  function returnToPlace() {
    const place = JSON.parse(kept("place") || "[]");
    if (place[0] !== location.pathname) return;
    scrollTo({ left: place[1], top: place[2], behavior: "instant" });
  }

  async function showProblems(trouble) {
    const answer = await fetch("/-/problems");
    if (!answer.ok) return;
    const list = await answer.text();
    if (!dialog) makeDialog();
    dialog.dataset.trouble = trouble;
    dialog.querySelector("div").innerHTML = list;
    opener.textContent = dialog.querySelector("h1").textContent;
    if (kept("closed") === trouble) closed();
    else if (!dialog.open) dialog.showModal();
  }

  function makeDialog() {
    const link = document.createElement("link");
    link.rel = "stylesheet";
    link.href = "/-/preview.css";
    document.head.append(link);

    dialog = document.createElement("dialog");
    dialog.className = "plait-problems";
    dialog.setAttribute("aria-labelledby", "plait-problems-title");
    const close = button("Close", () => dialog.close());
    close.autofocus = true;
    dialog.append(document.createElement("div"), close);
    dialog.addEventListener("close", () => {
      kept("closed", dialog.dataset.trouble);
      closed();
    });

    opener = button("", () => {
      kept("closed", "");
      opener.hidden = true;
      dialog.showModal();
    });
    opener.className = "plait-problems-opener";
    opener.hidden = true;
    document.body.append(dialog, opener);
  }

  function button(text, act) {
    const b = document.createElement("button");
    b.type = "button";
    b.textContent = text;
    b.addEventListener("click", act);
    return b;
  }

  function closed() {
    if (opener) opener.hidden = false;
  }

  function hideProblems() {
    dialog?.remove();
    opener?.remove();
    dialog = opener = null;
  }

  // A browser keeps only a few connections to one server, so pages that nobody
  // looks at do not listen. They learn what they missed when they are seen again.
  function listen() {
    if (document.hidden) {
      stream?.close();
      stream = null;
      return;
    }
    if (stream) return;
    stream = new EventSource("/-/events");
    stream.addEventListener("state", (event) => follow(JSON.parse(event.data)));
    stream.addEventListener("error", () => {
      if (stream?.readyState !== EventSource.CLOSED) return; // it tries again by itself
      stream = null;
      setTimeout(listen, 2000);
    });
  }

  document.addEventListener("DOMContentLoaded", () => {
    returnToPlace();
    listen();
    document.addEventListener("visibilitychange", listen);
  });
  // Pictures may have changed the height of the page since.
  addEventListener("load", () => {
    returnToPlace();
    kept("place", "");
  });
})();
