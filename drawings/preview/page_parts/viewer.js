// Ties the page together: the piece on its stage, and what buttons, lists and clicks do to them.
import * as THREE from "three";
import { fillPanel, markPart } from "panel";
import { readPiece } from "piece";
import { Stage } from "stage";

const byId = (id) => document.getElementById(id);

export async function show(model, data) {
  const piece = await readPiece(model);
  const stage = new Stage(byId("view"));
  new Viewer(stage, piece, fullData(data, piece));
  stage.receive(piece.object);
  stage.turnIdly(!matchMedia("(prefers-reduced-motion: reduce)").matches);
}

// A page written without a parts list still lists what the model holds.
function fullData(data, piece) {
  const parts = data.parts.length ? data.parts : [...piece.parts.keys()].map((name) => ({ name }));
  return { openings: [], ...data, parts };
}

class Viewer {
  constructor(stage, piece, data) {
    this.stage = stage;
    this.piece = piece;
    this.sizes = new Map(data.parts.map((part) => [part.name, part.size ?? ""]));
    this.chosen = null;
    this.pin = pinFor();
    stage.scene.add(this.pin);
    piece.hang(data.openings);
    byId("opening").hidden = !data.openings.length;
    stage.afterDraw = () => this.#ready();
    fillPanel(data, {
      onPart: (name) => this.#choosePart(name === this.chosen ? null : name),
      onFinding: (finding) => this.#goTo(finding),
    });
    this.#wireControls(data.findings.length);
    this.#wirePicking();
  }

  #ready() {
    if (window.dryfitReady) return;
    byId("message").hidden = true;
    document.documentElement.dataset.state = "ready";
    window.dryfitReady = true;
  }

  #wireControls(findings) {
    for (const view of document.querySelectorAll("[data-view]")) {
      view.addEventListener("click", () => this.#view(view.dataset.view));
    }
    byId("open").addEventListener("input", () => this.#pose());
    byId("apart").addEventListener("input", () => this.#pose());
    byId("open-panel").textContent = findings ? `Parts · ${findings} to look at` : "Parts";
    byId("open-panel").addEventListener("click", () => this.#panel(byId("panel").hidden));
    byId("close-panel").addEventListener("click", () => this.#panel(false));
    document.addEventListener("keydown", (event) => event.key === "Escape" && this.#clear());
    this.stage.controls.addEventListener("start", () => this.#markView(null));
  }

  #view(name) {
    this.stage.turnIdly(false);
    this.stage.look(name, true, this.piece.bounds());
    this.#markView(name);
  }

  #markView(name) {
    for (const view of document.querySelectorAll("[data-view]")) {
      view.setAttribute("aria-pressed", String(view.dataset.view === name));
    }
  }

  #pose() {
    this.stage.turnIdly(false);
    this.pin.visible = false;
    this.piece.pose(byId("open").value / 100, byId("apart").value / 100);
    this.stage.moved(this.piece.bounds());
    this.stage.look(null, false, this.piece.bounds());
  }

  #panel(open) {
    byId("panel").hidden = !open;
    byId("open-panel").setAttribute("aria-expanded", String(open));
    const beside = open && byId("panel").offsetTop < 100; // on a phone it lies below, not beside
    this.stage.cover(beside ? byId("panel").offsetWidth + 20 : 0);
    this.stage.look(null, true, this.piece.bounds());
    byId(open ? "close-panel" : "open-panel").focus();
  }

  #clear() {
    if (this.chosen || this.pin.visible) this.#choosePart(null);
    else if (!byId("panel").hidden) this.#panel(false);
  }

  #choosePart(name) {
    this.chosen = name;
    this.pin.visible = false;
    this.#fade(name ? [name] : []);
    this.#say(name ? [name, this.sizes.get(name)].filter(Boolean).join(" · ") : "");
    markPart(name);
  }

  #goTo(finding) {
    byId("open").value = byId("apart").value = 0;
    this.#pose();
    this.chosen = null;
    markPart(null);
    this.#fade(finding.parts ?? []);
    this.#say(finding.message);
    if (finding.where) this.#pinAt(finding.where);
    else this.stage.look(null, true, this.piece.bounds(finding.parts));
  }

  // A place in the piece is in mm, Z up; the stage is in metres, Y up.
  #pinAt([x, y, z]) {
    const size = this.stage.radius;
    this.pin.position.set(x / 1000, z / 1000, -y / 1000);
    this.pin.scale.setScalar(size * 0.05);
    this.pin.visible = true;
    this.stage.approach(this.pin.position, size * 1.5);
  }

  #fade(names) {
    this.stage.turnIdly(false);
    this.piece.choose(names);
    this.stage.renderer.shadowMap.needsUpdate = true;
    this.stage.changed();
  }

  #say(words) {
    byId("chosen").textContent = words;
    byId("chosen").hidden = !words;
  }

  #wirePicking() {
    const canvas = byId("view");
    let pressed = null;
    canvas.addEventListener("pointerdown", (event) => { pressed = [event.clientX, event.clientY]; });
    canvas.addEventListener("pointerup", (event) => {
      const still = pressed && Math.hypot(event.clientX - pressed[0], event.clientY - pressed[1]) < 5;
      if (still && event.button === 0) this.#pick(event, canvas);
    });
  }

  #pick(event, canvas) {
    const frame = canvas.getBoundingClientRect();
    const at = new THREE.Vector2(
      ((event.clientX - frame.left) / frame.width) * 2 - 1, 1 - ((event.clientY - frame.top) / frame.height) * 2,
    );
    const ray = new THREE.Raycaster();
    ray.setFromCamera(at, this.stage.camera);
    this.#choosePart(this.piece.under(ray));
  }
}

// A ring that always faces the viewer and shows through the wood.
function pinFor() {
  const canvas = document.createElement("canvas");
  canvas.width = canvas.height = 64;
  const pen = canvas.getContext("2d");
  for (const [colour, width] of [["#fff", 10], ["#b3361f", 6]]) {
    pen.strokeStyle = colour;
    pen.lineWidth = width;
    pen.beginPath();
    pen.arc(32, 32, 24, 0, Math.PI * 2);
    pen.stroke();
  }
  const map = new THREE.CanvasTexture(canvas);
  map.colorSpace = THREE.SRGBColorSpace;
  const pin = new THREE.Sprite(new THREE.SpriteMaterial({ map, depthTest: false, toneMapped: false }));
  pin.renderOrder = 2;
  pin.visible = false;
  return pin;
}
