// The soft shadow on the floor: the piece flattened along many directions of light, one faint shadow over another.
import * as THREE from "three";

const SAMPLES = 48;
const PIXELS = 512;
const ROOM = 4.6; // width of the shadow picture, in radii of the piece
const SPREADS = [9, 4, 2]; // pixels between the nine copies that blur it, one pass after another
const WINDOW = new THREE.Vector3(-0.55, 1.15, 0.75).normalize();

export class Ground {
  constructor(renderer, scene) {
    this.renderer = renderer;
    this.scene = scene;
    this.one = target();
    this.all = target();
    this.eye = new THREE.OrthographicCamera(-1, 1, 1, -1, 0.1, 10);
    this.eye.up.set(0, 0, -1);
    this.flat = new THREE.MeshBasicMaterial({ color: 0xffffff, side: THREE.DoubleSide, toneMapped: false });
    this.faint = overlay(this.one.texture, [[0, 0]], 1 / SAMPLES);
    this.floor = this.#floor();
    scene.add(this.floor);
  }

  // Draw the shadow of an object, seen from above within radius of the centre.
  draw(object, centre, radius) {
    const half = (radius * ROOM) / 2;
    this.floor.position.set(centre.x, -0.0005, centre.z);
    this.floor.scale.setScalar(half * 2);
    Object.assign(this.eye, { left: -half, right: half, top: half, bottom: -half, near: 0, far: radius * 2 });
    this.eye.position.set(centre.x, radius, centre.z);
    this.eye.lookAt(centre.x, 0, centre.z);
    this.eye.updateProjectionMatrix();
    this.#with(object, () => {
      directions().forEach((light, number) => this.#addShadow(object, light, number === 0));
      this.#blur();
    });
  }

  // Run with the object alone in sight and in one flat colour, then put everything back.
  #with(object, run) {
    const { renderer } = this;
    const kept = { target: renderer.getRenderTarget(), alpha: renderer.getClearAlpha(), clear: renderer.autoClear };
    const place = object.matrix.clone();
    const stand = new THREE.Scene();
    const parent = object.parent;
    stand.overrideMaterial = this.flat;
    stand.add(object);
    this.stand = stand;
    object.matrixAutoUpdate = false;
    renderer.setClearAlpha(0);
    run();
    object.matrix.copy(place);
    object.matrixAutoUpdate = true;
    parent.add(object);
    object.updateMatrixWorld(true);
    renderer.setRenderTarget(kept.target);
    renderer.setClearAlpha(kept.alpha);
    renderer.autoClear = kept.clear;
  }

  #addShadow(object, light, first) {
    const { renderer } = this;
    const lean = new THREE.Matrix4().makeShear(0, 0, -light.x / light.y, -light.z / light.y, 0, 0);
    const flat = new THREE.Matrix4().makeScale(1, 0.02, 1);
    object.matrix.makeTranslation(0, object.position.y, 0).premultiply(lean).premultiply(flat);
    object.updateMatrixWorld(true);
    renderer.autoClear = true;
    renderer.setRenderTarget(this.one);
    renderer.render(this.stand, this.eye);
    this.#lay(this.faint, this.all, first);
  }

  #blur() {
    for (const spread of SPREADS) {
      this.#lay(overlay(this.all.texture, [[0, 0]], 1), this.one, true);
      this.#lay(overlay(this.one.texture, nine((2 * spread) / PIXELS), 1 / 9), this.all, true);
    }
  }

  #lay(sheet, target, clear) {
    this.renderer.autoClear = clear;
    this.renderer.setRenderTarget(target);
    this.renderer.render(sheet, SHEET_EYE);
  }

  #floor() {
    const shadow = new THREE.MeshBasicMaterial({
      color: 0x241a12, alphaMap: this.all.texture, transparent: true, opacity: 0.62, depthWrite: false, toneMapped: false,
    });
    const floor = new THREE.Mesh(new THREE.PlaneGeometry(1, 1).rotateX(-Math.PI / 2), shadow);
    floor.renderOrder = -1;
    return floor;
  }
}

const SHEET_EYE = new THREE.OrthographicCamera(-1, 1, 1, -1, -1, 1);

function target() {
  return new THREE.WebGLRenderTarget(PIXELS, PIXELS, {
    type: THREE.HalfFloatType, depthBuffer: false, generateMipmaps: false,
  });
}

// Copies of a picture, each moved a little and so faint, adding up.
function overlay(map, moves, share) {
  const faint = new THREE.MeshBasicMaterial({
    map, color: new THREE.Color().setScalar(share), blending: THREE.CustomBlending, blendSrc: THREE.OneFactor,
    blendDst: THREE.OneFactor, depthTest: false, depthWrite: false, toneMapped: false,
  });
  const sheet = new THREE.Scene();
  for (const [x, y] of moves) {
    const copy = new THREE.Mesh(new THREE.PlaneGeometry(2, 2), faint);
    copy.position.set(x, y, 0);
    sheet.add(copy);
  }
  return sheet;
}

function nine(step) {
  return [-step, 0, step].flatMap((x) => [-step, 0, step].map((y) => [x, y]));
}

// Light from the whole sky, evenly (a sunflower's spiral), leaning towards the window; never very low.
function directions() {
  return Array.from({ length: SAMPLES }, (_, number) => {
    const height = 1 - (number + 0.5) / SAMPLES;
    const turn = number * 2.399963;
    const side = Math.sqrt(1 - height * height);
    const light = new THREE.Vector3(side * Math.cos(turn), height, side * Math.sin(turn)).addScaledVector(WINDOW, 0.7).normalize();
    light.y = Math.max(light.y, 0.5);
    return light;
  });
}
