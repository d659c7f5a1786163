// The piece itself: its parts, the grain each shows, and how they fade, stand out or move apart.
import * as THREE from "three";
import { GLTFLoader } from "gltf-loader";
import { OUTLINES } from "stage";

const BOARDS = 9; // boards that look different, cut out of the one grain picture
const EDGE_DEGREES = 25;
const FADED = 0.09;

export async function readPiece(model) {
  const file = await new GLTFLoader().parseAsync(model, "");
  return new Piece(file.scene);
}

class Piece {
  constructor(scene) {
    this.object = new THREE.Group();
    this.object.add(scene);
    this.parts = new Map();
    this.looks = new Map();
    this.outlines = new Map();
    scene.updateMatrixWorld(true);
    this.box = new THREE.Box3().setFromObject(scene);
    EDGE.opacity = Math.min(0.38, 0.5 / this.box.getBoundingSphere(new THREE.Sphere()).radius); // or a long wall turns black
    const meshes = [];
    scene.traverse((node) => node.isMesh && meshes.push(node));
    meshes.forEach((mesh, number) => this.#adopt(mesh, number));
  }

  // Show these parts as they are and fade the others; with none, show all.
  choose(names) {
    const chosen = new Set(names);
    for (const [name, part] of this.parts) {
      const faded = chosen.size > 0 && !chosen.has(name);
      part.mesh.material = faded ? part.look.faded : part.look.solid;
      part.mesh.castShadow = !faded;
      part.mesh.renderOrder = faded ? 1 : 0;
      part.edges.material = faded ? FADED_EDGE : EDGE;
    }
  }

  // What opens: each with the names of all that goes along, and how; mm, Z up, where the stage has metres, Y up.
  hang(openings) {
    for (const opening of openings) {
      const travel = travelOf(opening);
      for (const name of opening.parts) if (this.parts.has(name)) this.parts.get(name).travel = travel;
    }
  }

  // Open what opens, 0 shut to 1 at its stop, and move every part away from the middle, 0 together to 1 well apart.
  // Nothing sinks into the ground.
  pose(opened, apart) {
    const middle = this.box.getCenter(new THREE.Vector3());
    for (const { mesh, home, centre, travel } of this.parts.values()) {
      mesh.position.copy(home.position);
      mesh.quaternion.copy(home.quaternion);
      travel?.(mesh, opened);
      mesh.position.addScaledVector(centre.clone().sub(middle), apart * 0.85);
      mesh.updateMatrix();
    }
    this.object.position.y = 0;
    this.object.updateMatrixWorld(true);
    this.object.position.y = Math.max(0, this.box.min.y - this.bounds().min.y);
    this.object.updateMatrixWorld(true);
  }

  bounds(names) {
    const box = new THREE.Box3();
    for (const name of names?.length ? names : this.parts.keys()) {
      if (this.parts.has(name)) box.expandByObject(this.parts.get(name).mesh);
    }
    return box;
  }

  // The name of the nearest part under a ray, faded ones left out.
  under(ray) {
    const solid = [...this.parts.values()].filter((part) => part.mesh.material === part.look.solid);
    const hit = ray.intersectObjects(solid.map((part) => part.mesh), false)[0];
    return hit ? nameOf(hit.object) : null;
  }

  #adopt(mesh, number) {
    const look = this.#look(mesh.material, number % BOARDS);
    mesh.material = look.solid;
    mesh.castShadow = true;
    mesh.receiveShadow = true;
    const edges = new THREE.LineSegments(this.#outline(mesh.geometry), EDGE);
    edges.layers.set(OUTLINES);
    edges.raycast = () => {};
    mesh.add(edges);
    const centre = new THREE.Box3().setFromObject(mesh).getCenter(new THREE.Vector3());
    this.parts.set(nameOf(mesh), { mesh, edges, look, centre, home: { position: mesh.position.clone(), quaternion: mesh.quaternion.clone() } });
  }

  #outline(geometry) {
    if (!this.outlines.has(geometry)) {
      this.outlines.set(geometry, new THREE.EdgesGeometry(geometry, EDGE_DEGREES));
    }
    return this.outlines.get(geometry);
  }

  // Neighbouring boards come from different places in the log, and no two are quite the same colour.
  #look(material, board) {
    const key = `${material.uuid} ${board}`;
    if (!this.looks.has(key)) {
      const solid = material.clone();
      if (material.map) {
        solid.map = material.map.clone();
        solid.map.anisotropy = 8;
        solid.map.offset.set((board * 0.618034) % 1, (board * 0.381966) % 1);
        const shade = 1 + 0.07 * Math.sin(board * 2.4 + 0.6);
        solid.color.multiply(new THREE.Color(shade ** 0.8, shade ** 1.3, shade ** 1.7));
      }
      const faded = solid.clone();
      Object.assign(faded, { transparent: true, opacity: FADED, depthWrite: false });
      solid.polygonOffset = true;
      solid.polygonOffsetFactor = solid.polygonOffsetUnits = 1;
      this.looks.set(key, { solid, faded });
    }
    return this.looks.get(key);
  }
}

const EDGE = new THREE.LineBasicMaterial({ color: 0x2b1a0c, transparent: true, opacity: 0.38 });
const FADED_EDGE = new THREE.LineBasicMaterial({ color: 0x2b1a0c, transparent: true, opacity: 0.1 });

// How a mesh at home is moved by a share of its travel: about its pin, or straight.
function travelOf({ pin, along, opens }) {
  const way = stageway(along);
  if (!pin) return (mesh, share) => mesh.position.addScaledVector(way, (share * opens) / 1000);
  const at = stageway(pin).divideScalar(1000);
  return (mesh, share) => {
    const turn = new THREE.Quaternion().setFromAxisAngle(way, THREE.MathUtils.degToRad(share * opens));
    mesh.position.sub(at).applyQuaternion(turn).add(at);
    mesh.quaternion.premultiply(turn);
  };
}

function stageway([x, y, z]) {
  return new THREE.Vector3(x, z, -y);
}

function nameOf(mesh) {
  return mesh.userData.name ?? mesh.name;
}
