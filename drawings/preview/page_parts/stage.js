// The room the piece stands in: light, ground, camera, and when to draw.
import * as THREE from "three";
import { Ground } from "ground";
import { OrbitControls } from "orbit-controls";
import { RoomEnvironment } from "room-environment";

const DIRECTIONS = {
  quarter: new THREE.Vector3(-0.62, 0.3, 1),
  front: new THREE.Vector3(0, 0.02, 1),
  side: new THREE.Vector3(1, 0.02, 0),
  top: new THREE.Vector3(0, 1, 0.002),
};

// One strong window and a ring of weak ones: their overlapping shadows darken inside corners as a real room does.
const WINDOWS = [
  { from: [-1.1, 1.9, 1.5], light: 1.5, colour: 0xfff1de, map: 2048, soft: 5 },
  { from: [1.8, 1.3, 0.9], light: 0.5, colour: 0xf6f4f4, map: 1024, soft: 7 },
  { from: [-1.6, 0.9, -0.9], light: 0.4, colour: 0xfff6ea, map: 1024, soft: 7 },
  { from: [0.2, 2.2, -0.8], light: 0.55, colour: 0xffffff, map: 1024, soft: 7 },
  { from: [0.3, 0.55, 1.9], light: 0.35, colour: 0xfffaf2, map: 1024, soft: 7 },
];

export const OUTLINES = 1; // the layer of drawn edges, which throw no shadow

export class Stage {
  constructor(canvas) {
    this.canvas = canvas;
    this.renderer = new THREE.WebGLRenderer({ canvas, antialias: true, alpha: true });
    this.renderer.setPixelRatio(Math.min(window.devicePixelRatio, 2));
    this.renderer.toneMapping = THREE.NeutralToneMapping;
    this.renderer.toneMappingExposure = 1.0;
    this.renderer.shadowMap.enabled = true;
    this.renderer.shadowMap.autoUpdate = false;
    this.scene = new THREE.Scene();
    this.camera = new THREE.PerspectiveCamera(28, 1, 0.01, 200);
    this.radius = 1;
    this.camera.layers.enable(OUTLINES);
    this.covered = 0;
    this.flight = null;
    this.afterDraw = () => {};
    this.#surround();
    this.#control();
    new ResizeObserver(() => this.#resize()).observe(canvas);
    this.#resize();
    this.renderer.setAnimationLoop((time) => this.#tick(time));
  }

  // Add the piece, fit the light to it and stand before it.
  receive(object) {
    this.object = object;
    this.scene.add(object);
    this.box = new THREE.Box3().setFromObject(object);
    this.radius = this.box.getBoundingSphere(new THREE.Sphere()).radius;
    this.controls.minDistance = this.radius * 0.25;
    this.controls.maxDistance = this.radius * 14;
    this.camera.near = this.radius / 100;
    this.camera.far = this.radius * 40;
    this.camera.updateProjectionMatrix();
    this.moved(this.box);
    this.look("quarter", false);
  }

  // The piece has moved within this box: its shadows must follow, once, before the next picture.
  moved(box) {
    this.unlit = box;
    this.changed();
  }

  #light(box) {
    const sphere = box.getBoundingSphere(new THREE.Sphere());
    for (const lamp of this.lamps) {
      lamp.target.position.copy(sphere.center);
      lamp.position.copy(lamp.userData.from).multiplyScalar(sphere.radius * 2.5).add(sphere.center);
      const eye = lamp.shadow.camera;
      eye.left = eye.bottom = -sphere.radius * 1.15;
      eye.right = eye.top = sphere.radius * 1.15;
      eye.near = sphere.radius * 0.5;
      eye.far = sphere.radius * 9;
      eye.updateProjectionMatrix();
      lamp.shadow.normalBias = (sphere.radius * 5) / lamp.shadow.mapSize.x;
    }
    this.ground.draw(this.object, sphere.center, sphere.radius);
    this.renderer.shadowMap.needsUpdate = true;
  }

  // Look at the whole of a box (the piece unless given) along a named direction, or keep the one there is.
  look(name, glide = true, box = this.box) {
    const along = name ? DIRECTIONS[name].clone() : this.camera.position.clone().sub(this.controls.target);
    const centre = box.getCenter(new THREE.Vector3());
    this.#fly(centre, along.normalize(), this.#distance(box, along, centre), glide);
  }

  // Come close to one place.
  approach(place, room) {
    const along = place.clone().sub(this.box.getCenter(new THREE.Vector3()));
    along.y = Math.max(along.y, 0) + this.radius * 0.3;
    along.z += this.radius * 0.8;
    this.#fly(place, along.normalize(), room, true);
  }

  // Keep the piece clear of a panel that covers this many pixels on the right.
  cover(pixels) {
    this.covered = pixels;
    this.#resize();
  }

  turnIdly(on) {
    this.controls.autoRotate = on;
    this.changed();
  }

  changed() {
    this.dirty = true;
  }

  #surround() {
    const maker = new THREE.PMREMGenerator(this.renderer);
    this.scene.environment = maker.fromScene(new RoomEnvironment(), 0.04).texture;
    this.scene.environmentIntensity = 0.36;
    maker.dispose();
    this.scene.add(new THREE.HemisphereLight(0xfff3e6, 0xdb9a66, 0.75));
    this.ground = new Ground(this.renderer, this.scene);
    this.lamps = WINDOWS.map(lampFor);
    for (const lamp of this.lamps) this.scene.add(lamp, lamp.target);
  }

  #control() {
    this.controls = new OrbitControls(this.camera, this.canvas);
    this.controls.enableDamping = true;
    this.controls.dampingFactor = 0.08;
    this.controls.maxPolarAngle = Math.PI * 0.62;
    this.controls.autoRotateSpeed = 0.55;
    this.controls.addEventListener("change", () => this.changed());
    this.controls.addEventListener("start", () => {
      this.flight = null;
      this.turnIdly(false);
    });
    this.canvas.addEventListener("keydown", (event) => this.#key(event));
  }

  #key(event) {
    const turns = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    const zooms = { "+": 0.85, "=": 0.85, "-": 1.18 };
    const offset = new THREE.Spherical().setFromVector3(this.camera.position.clone().sub(this.controls.target));
    if (turns[event.key]) {
      offset.theta += turns[event.key][0] * 0.15;
      offset.phi += turns[event.key][1] * 0.1;
    } else if (zooms[event.key]) {
      offset.radius *= zooms[event.key];
    } else {
      return;
    }
    event.preventDefault();
    this.turnIdly(false);
    offset.phi = THREE.MathUtils.clamp(offset.phi, 0.01, this.controls.maxPolarAngle);
    this.camera.position.setFromSpherical(offset).add(this.controls.target);
    this.changed();
  }

  // How far back the camera must stand for every corner of the box to be in view, with a margin.
  #distance(box, along, centre) {
    const view = new THREE.Matrix4().lookAt(along, new THREE.Vector3(), this.camera.up).invert();
    const tall = Math.tan(THREE.MathUtils.degToRad(this.camera.fov / 2)) * 0.8;
    const wide = tall * Math.max(this.camera.aspect - this.covered / this.canvas.clientHeight, 0.3) * 1.1;
    let distance = 0;
    for (let corner = 0; corner < 8; corner += 1) {
      const p = new THREE.Vector3(
        corner & 1 ? box.max.x : box.min.x, corner & 2 ? box.max.y : box.min.y, corner & 4 ? box.max.z : box.min.z,
      ).sub(centre).applyMatrix4(view);
      distance = Math.max(distance, p.z + Math.abs(p.x) / wide, p.z + Math.abs(p.y) / tall);
    }
    return distance;
  }

  #fly(target, along, distance, glide) {
    this.flight = {
      from: new THREE.Spherical().setFromVector3(this.camera.position.clone().sub(this.controls.target)),
      to: new THREE.Spherical().setFromVector3(along.clone().multiplyScalar(distance)),
      start: this.controls.target.clone(),
      end: target.clone(),
      began: null,
      lasts: glide && !matchMedia("(prefers-reduced-motion: reduce)").matches ? 700 : 0,
    };
    const turn = this.flight.to.theta - this.flight.from.theta;
    this.flight.from.theta += Math.round(turn / (2 * Math.PI)) * 2 * Math.PI;
    if (!this.flight.lasts) this.#glide(0);
    this.changed();
  }

  #glide(time) {
    const { from, to, start, end, lasts } = this.flight;
    this.flight.began ??= time;
    const share = lasts ? Math.min((time - this.flight.began) / lasts, 1) : 1;
    const eased = share * share * (3 - 2 * share);
    const mix = THREE.MathUtils.lerp;
    this.controls.target.lerpVectors(start, end, eased);
    this.camera.position
      .setFromSphericalCoords(mix(from.radius, to.radius, eased), mix(from.phi, to.phi, eased), mix(from.theta, to.theta, eased))
      .add(this.controls.target);
    if (share === 1) this.flight = null;
    this.changed();
  }

  #resize() {
    const { clientWidth: width, clientHeight: height } = this.canvas;
    if (!width || !height) return;
    this.renderer.setSize(width, height, false);
    const shape = this.camera.aspect;
    this.camera.aspect = width / height;
    this.camera.setViewOffset(width, height, this.covered / 2, height * 0.03, width, height);
    if (this.box && Math.abs(shape - this.camera.aspect) > 0.01) this.look(null, false);
    this.changed();
  }

  #tick(time) {
    if (this.flight) this.#glide(time);
    this.controls.update();
    if (!this.dirty || !this.box) return;
    this.dirty = false;
    if (this.unlit) this.#light(this.unlit);
    this.unlit = null;
    this.renderer.render(this.scene, this.camera);
    this.afterDraw();
  }
}

function lampFor({ from, light, colour, map, soft }) {
  const lamp = new THREE.DirectionalLight(colour, light);
  lamp.userData.from = new THREE.Vector3(...from).normalize();
  lamp.castShadow = true;
  lamp.shadow.mapSize.set(map, map);
  lamp.shadow.radius = soft;
  lamp.shadow.bias = -0.0004;
  return lamp;
}
