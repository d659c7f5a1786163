// The maker's panel: what to look at, the parts in their groups, and what was checked.
const SEVERITIES = { fault: "Do not cut", caution: "Decide", note: "Note" };

export function fillPanel({ parts, findings, proofs }, { onPart, onFinding }) {
  fillFindings(findings, onFinding);
  fillParts(parts, onPart);
  fillProofs(proofs);
}

export function markPart(name) {
  for (const row of document.querySelectorAll("#part-groups button")) {
    const chosen = row.dataset.part === name;
    row.setAttribute("aria-pressed", String(chosen));
    if (chosen) row.scrollIntoView({ block: "nearest" });
  }
}

function fillFindings(findings, onFinding) {
  if (!findings.length) return;
  const section = document.getElementById("findings");
  section.hidden = false;
  for (const finding of findings) {
    const row = button("", () => onFinding(finding));
    row.append(text("strong", SEVERITIES[finding.severity] ?? finding.severity), text("span", finding.message));
    row.className = `finding ${finding.severity}`;
    section.querySelector("ul").append(item(row));
  }
}

function fillParts(parts, onPart) {
  const place = document.getElementById("part-groups");
  for (const [group, members] of grouped(parts)) {
    const list = document.createElement("ul");
    for (const part of members) {
      const row = button("", () => onPart(part.name));
      row.dataset.part = part.name;
      row.setAttribute("aria-pressed", "false");
      row.append(text("span", part.name), text("small", part.size ?? ""));
      list.append(item(row));
    }
    if (group) place.append(text("h4", group));
    place.append(list);
  }
}

// Parts by their group's name; those that are alone in theirs stand together, under no name.
function grouped(parts) {
  const groups = new Map([["", []]]);
  for (const part of parts) {
    const alone = parts.every((other) => other === part || other.group !== part.group);
    const group = alone ? "" : part.group ?? "";
    groups.set(group, [...(groups.get(group) ?? []), part]);
  }
  return groups;
}

function fillProofs(proofs) {
  if (!proofs.length) return;
  const section = document.getElementById("proofs");
  section.hidden = false;
  for (const { what, checked, held } of proofs) {
    const row = document.createElement("li");
    row.className = held === checked ? "held" : "broken";
    row.append(text("span", what), text("small", `${held} of ${checked}`));
    section.querySelector("ul").append(row);
  }
}

function text(tag, words) {
  const element = document.createElement(tag);
  element.textContent = words;
  return element;
}

function button(words, onClick) {
  const element = text("button", words);
  element.type = "button";
  element.addEventListener("click", onClick);
  return element;
}

function item(child) {
  const element = document.createElement("li");
  element.append(child);
  return element;
}
