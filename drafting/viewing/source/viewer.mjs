// The solid in a browser: one canvas, our own GLB, a rod that slides. Nothing is fetched.
import {
  AmbientLight, BufferAttribute, BufferGeometry, Box3, CanvasTexture, Color, DirectionalLight,
  DoubleSide, EdgesGeometry, Group, LineBasicMaterial, LineSegments, Mesh, MeshStandardMaterial,
  OrthographicCamera, Plane, Quaternion, Scene, Sprite, SpriteMaterial, Vector3, WebGLRenderer,
} from "three";
import { OrbitControls } from "three/addons/controls/OrbitControls.js";

const ARRAYS = { 5126: Float32Array, 5125: Uint32Array, 5123: Uint16Array };
const WIDE = { SCALAR: 1, VEC3: 3 };
const AIR = 1.06; // round the model, as a share of it
const EDGE = 25; // degrees between two triangles from which on their edge is drawn
const HOURS = [12, 3, 6, 9];
const HOUR_HIGH = 22; // px of an hour's square on the screen
const HOUR_AWAY = 1.3; // of the body's half width: where the hours stand
const HOUR_ROOM = 1.12; // of how far away they stand: with the room of their figures

// Read a GLB (glTF 2.0, 4.4) as the tool writes it: nodes, meshes, plain materials.
export function readGlb(buffer) {
  const view = new DataView(buffer);
  const size = view.getUint32(12, true);
  const told = JSON.parse(new TextDecoder().decode(new Uint8Array(buffer, 20, size)));
  const start = 20 + size + 8;
  const column = (k) => {
    const a = told.accessors[k];
    const at = start + (told.bufferViews[a.bufferView].byteOffset || 0) + (a.byteOffset || 0);
    const Kind = ARRAYS[a.componentType];
    const count = a.count * WIDE[a.type];
    return new Kind(buffer.slice(at, at + count * Kind.BYTES_PER_ELEMENT));
  };
  const shapes = (told.meshes || []).map((mesh) => mesh.primitives.map((p) => ({
    position: column(p.attributes.POSITION),
    normal: column(p.attributes.NORMAL),
    index: column(p.indices),
    colour: told.materials[p.material].pbrMetallicRoughness.baseColorFactor,
  })));
  return { told, shapes };
}

function built(k, told, shapes, clip, inks) {
  const node = told.nodes[k];
  const group = new Group();
  group.name = node.name || "";
  if (node.rotation) group.quaternion.copy(new Quaternion(...node.rotation));
  for (const s of node.mesh === undefined ? [] : shapes[node.mesh]) {
    const g = new BufferGeometry();
    g.setAttribute("position", new BufferAttribute(s.position, 3));
    g.setAttribute("normal", new BufferAttribute(s.normal, 3));
    g.setIndex(new BufferAttribute(s.index, 1));
    const steel = new MeshStandardMaterial({
      color: new Color(...s.colour.slice(0, 3)), metalness: 0.25, roughness: 0.55,
      side: DoubleSide, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1,
      clippingPlanes: clip,
    });
    group.add(new Mesh(g, steel));
    const ink = new LineBasicMaterial({ color: 0x202830, clippingPlanes: clip });
    inks.push(ink);
    group.add(new LineSegments(new EdgesGeometry(g, EDGE), ink));
  }
  for (const child of node.children || []) group.add(built(child, told, shapes, clip, inks));
  return group;
}

function found(group, name) {
  if (group.name === name) return group;
  for (const child of group.children) {
    const hit = found(child, name);
    if (hit) return hit;
  }
  return null;
}

// One hour as a picture that always looks at the reader; it is drawn white and tinted by the theme.
function hour(words) {
  const canvas = Object.assign(document.createElement("canvas"), { width: 64, height: 64 });
  const pen = canvas.getContext("2d");
  Object.assign(pen, { font: "600 44px system-ui, sans-serif", fillStyle: "#fff", textAlign: "center", textBaseline: "middle" });
  pen.fillText(words, 32, 34);
  return new Sprite(new SpriteMaterial({ map: new CanvasTexture(canvas), transparent: true, depthTest: false }));
}

// Show a GLB on a canvas. Gives what a page does with it; throws where there is no WebGL.
export function show(canvas, buffer, strokeMm) {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true, preserveDrawingBuffer: true });
  renderer.localClippingEnabled = true;
  const { told, shapes } = readGlb(buffer);
  const cut = new Plane(new Vector3(0, 0, -1), 0); // the half towards the reader is taken away
  const clip = [];
  const inks = [];
  const scene = new Scene();
  const root = new Group();
  for (const k of told.scenes[0].nodes) root.add(built(k, told, shapes, clip, inks));
  scene.add(root, new AmbientLight(0xffffff, 1.4));
  const lamp = new DirectionalLight(0xffffff, 2.2);
  const camera = new OrthographicCamera(-1, 1, 1, -1, -100, 100);
  scene.add(camera);
  camera.add(lamp);
  lamp.position.set(-0.6, 1.0, 1.6);
  const rod = found(root, "rod");
  const controls = new OrbitControls(camera, canvas);
  controls.enableDamping = false;

  const box = new Box3().setFromObject(root);
  box.max.x += strokeMm / 1000;
  const middle = box.getCenter(new Vector3());
  const size = box.getSize(new Vector3());
  const body = new Box3().setFromObject(found(root, "barrel") || root);
  const away = HOUR_AWAY * Math.max(body.max.y, -body.min.y, body.max.z, -body.min.z);
  const place = (end, k) => { // where the hour k quarters of a turn from 12 stands; 3 o'clock: whoever looks at the rod end looks along -x
    const turn = k * Math.PI / 2, right = end === "rod" ? -1 : 1;
    return new Vector3(end === "rod" ? body.max.x : body.min.x, Math.cos(turn) * away, right * Math.sin(turn) * away);
  };
  let waiting = 0;
  const hours = new Group();
  scene.add(hours);
  const draw = () => {
    waiting = 0;
    const high = HOUR_HIGH * (camera.right - camera.left) / (camera.zoom * (canvas.clientWidth || 1));
    for (const h of hours.children) h.scale.set(high, high, 1);
    renderer.render(scene, camera);
  };
  const ask = () => { if (!waiting) waiting = requestAnimationFrame(draw); };

  // How far the model, the rod out, and the hours reach from the middle, seen from where the eye is.
  const seen = () => {
    const far = new Vector3(), turned = camera.quaternion.clone().invert();
    const corner = (k) => new Vector3(k & 1 ? 0.5 : -0.5, k & 2 ? 0.5 : -0.5, k & 4 ? 0.5 : -0.5).multiply(size);
    const told = ["rod", "base"].flatMap((end) => HOURS.map((_, k) => place(end, k).sub(middle).multiplyScalar(HOUR_ROOM)));
    for (const way of [...[...Array(8).keys()].map(corner), ...told]) {
      way.applyQuaternion(turned);
      far.max(new Vector3(Math.abs(way.x), Math.abs(way.y), 0));
    }
    return far;
  };

  let fitted = "", spread = new Vector3();
  const resize = () => {
    const wide = canvas.clientWidth || 1, high = canvas.clientHeight || 1;
    if (fitted === `${wide} ${high}`) return; // an observer tells the first size, too
    fitted = `${wide} ${high}`;
    renderer.setPixelRatio(Math.min(window.devicePixelRatio || 1, 2));
    renderer.setSize(wide, high, false);
    const half = Math.max(spread.x, spread.y * wide / high, 1e-3) * AIR;
    Object.assign(camera, { left: -half, right: half, top: half * high / wide, bottom: -half * high / wide });
    camera.updateProjectionMatrix();
    ask();
  };
  const look = (x, y, z) => {
    controls.target.copy(middle);
    camera.position.copy(middle).add(new Vector3(x, y, z).normalize().multiplyScalar(size.length() + 0.1));
    camera.zoom = 1;
    controls.update();
    spread = seen();
    fitted = "";
    resize();
  };
  controls.addEventListener("change", ask);
  look(-0.5, 0.55, 1.0);
  return {
    // A frame costs what a drawing costs where software draws it: none without a reason.
    slide(mm) { if (rod && rod.position.x !== mm / 1000) { rod.position.x = mm / 1000; ask(); } },
    section(on) { clip.length = 0; if (on) clip.push(cut); scene.traverse((o) => { if (o.material) o.material.needsUpdate = true; }); ask(); },
    dark(on) { for (const ink of [...inks, ...hours.children.map((h) => h.material)]) ink.color.set(on ? 0xc8d4e0 : 0x202830); ask(); },
    // The hours round the end that they are read from: "rod" or "base". Up is 12.
    clock(end) {
      HOURS.forEach((h, k) => {
        const mark = hour(String(h));
        mark.position.copy(place(end, k));
        hours.add(mark);
      });
      ask();
    },
    turn(x, y, z) { look(x, y, z); },
    // Where the eye is, as shares of the model, so that a next one can be seen from there too.
    view(from) {
      const far = size.length() + 0.1;
      if (!from) return { eye: camera.position.clone().sub(controls.target).divideScalar(far), at: controls.target.clone().sub(middle).divideScalar(far), zoom: camera.zoom };
      controls.target.copy(middle).addScaledVector(from.at, far);
      camera.position.copy(controls.target).addScaledVector(from.eye, far);
      camera.zoom = from.zoom;
      controls.update();
      camera.updateProjectionMatrix();
      ask();
      return from;
    },
    resize,
    free() { controls.dispose(); renderer.dispose(); },
  };
}
