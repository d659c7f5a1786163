// Unpacks the scripts and the model that travel inside this page, and starts the viewer.
(async () => {
  "use strict";

  const bytesOf = (text) => Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  const unpack = (element) => {
    const packed = new Blob([bytesOf(element.textContent)]).stream();
    return new Response(packed.pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();
  };
  const say = (text) => {
    const message = document.getElementById("message");
    message.textContent = text;
    message.hidden = false;
  };

  const canDraw = () => {
    try {
      return Boolean(document.createElement("canvas").getContext("webgl2"));
    } catch {
      return false;
    }
  };

  if (!canDraw() || typeof DecompressionStream === "undefined") {
    document.documentElement.dataset.state = "no-webgl";
    say("This browser can't draw in three dimensions (WebGL 2 is missing or switched off). " +
        "The piece opens in any up-to-date browser; the drawings show it too.");
    return;
  }

  try {
    const imports = {};
    for (const element of document.querySelectorAll("script[data-module]")) {
      const source = new Blob([await unpack(element)], { type: "text/javascript" });
      imports[element.dataset.module] = URL.createObjectURL(source);
    }
    const map = document.createElement("script");
    map.type = "importmap";
    map.textContent = JSON.stringify({ imports });
    document.head.append(map);

    const model = await unpack(document.getElementById("model"));
    const data = JSON.parse(document.getElementById("data").textContent);
    const { show } = await import("viewer");
    await show(model, data);
  } catch (problem) {
    document.documentElement.dataset.state = "failed";
    say("The model could not be shown: " + problem.message);
    console.error(problem);
  }
})();
