(() => {
  const grounds = ["light", "dark", "red"];
  const root = document.documentElement;
  let kept = null;
  try {
    kept = localStorage.getItem("ground");
  } catch {}
  if (!grounds.includes(kept)) {
    kept = matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light";
  }
  root.dataset.ground = kept;
  const folded = () => document.querySelectorAll("details:not([open])");
  let opened = [];
  addEventListener("beforeprint", () => {
    opened = [...folded()];
    for (const d of opened) d.open = true;
  });
  addEventListener("afterprint", () => {
    for (const d of opened) d.open = false;
    opened = [];
  });
  document.addEventListener("DOMContentLoaded", () => {
    const chosen = document.getElementById("ground-" + kept);
    if (chosen) chosen.checked = true;
    for (const input of document.querySelectorAll("input[name=ground]")) {
      input.addEventListener("change", () => {
        root.dataset.ground = input.value;
        try {
          localStorage.setItem("ground", input.value);
        } catch {}
      });
    }
  });
})();
