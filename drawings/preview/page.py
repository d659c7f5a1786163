"""What does the client open? One HTML file, readable from a disk with no network, that turns the piece in the light.

Everything travels inside: the GLB, the page's own scripts, and the three.js library as it comes from its registry (npm
package three, 0.187.0; page_parts/three holds its files unchanged, with their licence). Each is compressed and
written as text; the page unpacks them (boot.js) and starts viewer.js.
"""

import base64
import gzip
import json
from collections.abc import Mapping, Sequence
from functools import lru_cache
from pathlib import Path
from typing import Any

import jinja2

PAGE = Path(__file__).with_name("page_parts")

#: The names the scripts import each other by, and their files.
MODULES = {
    "three-core": "three/three.core.js",
    "three": "three/three.module.js",
    "orbit-controls": "three/OrbitControls.js",
    "buffer-geometry": "three/BufferGeometryUtils.js",
    "skeleton": "three/SkeletonUtils.js",
    "gltf-loader": "three/GLTFLoader.js",
    "room-environment": "three/RoomEnvironment.js",
    "ground": "ground.js",
    "stage": "stage.js",
    "piece": "piece.js",
    "panel": "panel.js",
    "viewer": "viewer.js",
}

#: A script that lives in one page has no folder around it, so paths between the library's files become names.
PATHS = {
    "'./three.core.js'": "'three-core'",
    "'../utils/BufferGeometryUtils.js'": "'buffer-geometry'",
    "'../utils/SkeletonUtils.js'": "'skeleton'",
}

#: One row of the parts list: "name" as in the GLB, and optionally "group", "size", "material" as texts to show.
Part = Mapping[str, Any]

#: What opens, as `drawings.preview.opening.openings` has it.
Opening = Mapping[str, Any]

#: One finding as in report.json, and optionally "where": [x, y, z] mm in the piece.
Finding = Mapping[str, Any]

#: One proof as in report.json: "what", "checked", "held".
Proof = Mapping[str, Any]


def write_preview(
    glb_path: Path,
    path: Path,
    *,
    title: str,
    subtitle: str = "",
    overall: str = "",
    parts: Sequence[Part] = (),
    openings: Sequence[Opening] = (),
    findings: Sequence[Finding] = (),
    proofs: Sequence[Proof] = (),
) -> None:
    """Write the preview page.

    glb_path: a file from `write_glb`. title, subtitle, overall: shown as they are; overall gives the sizes.
    The same input gives the same bytes. Raises OSError if a file can't be read or written.
    """
    data = {"parts": parts, "openings": openings, "findings": findings, "proofs": proofs}
    page = _template().render(
        title=title,
        subtitle=subtitle,
        overall=overall,
        style=_asset("viewer.css"),
        boot=_asset("boot.js"),
        licence=_asset("three/LICENSE"),
        modules=_packed_modules(),
        model=_packed(Path(glb_path).read_bytes()),
        data=_script_safe(json.dumps(data, default=list, ensure_ascii=False)),
    )
    Path(path).write_text(page, encoding="utf-8", newline="\n")


def module_source(name: str) -> str:
    """The text of one of the page's scripts, importing the others by name. Raises KeyError for an unknown name."""
    text = _asset(MODULES[name])
    for written, known in PATHS.items():
        text = text.replace(f"from {written}", f"from {known}")
    return text


@lru_cache(maxsize=1)
def _packed_modules() -> dict[str, str]:
    return {name: _packed(module_source(name).encode()) for name in MODULES}


def _packed(data: bytes) -> str:
    return base64.b64encode(gzip.compress(data, mtime=0)).decode("ascii")


def _script_safe(text: str) -> str:
    return text.replace("<", "\\u003c")


def _asset(name: str) -> str:
    return (PAGE / name).read_text(encoding="utf-8")


def _template() -> jinja2.Template:
    environment = jinja2.Environment(autoescape=True, undefined=jinja2.StrictUndefined, keep_trailing_newline=True)
    return environment.from_string(_asset("template.html"))
