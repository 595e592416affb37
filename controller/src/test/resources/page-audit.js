// Complaints about the page as it stands: text of too little contrast (WCAG 2.2, 1.4.3), controls
// that are too small (2.5.8) or have no name (4.1.2), and ids that are used twice.
const complaints = [];

const numbers = (colour) => (colour.match(/[\d.]+/g) || []).map(Number);
const linear = (c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
// Relative luminance as WCAG 2.2 defines it for sRGB.
const luminance = ([r, g, b]) =>
  0.2126 * linear(r / 255) + 0.7152 * linear(g / 255) + 0.0722 * linear(b / 255);
const contrast = (a, b) => {
  const [high, low] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (high + 0.05) / (low + 0.05);
};
const ground = (element) => {
  for (let each = element; each; each = each.parentElement) {
    const colour = numbers(getComputedStyle(each).backgroundColor);
    if (colour.length === 3 || colour[3] === 1) return colour;
  }
  return [255, 255, 255];
};
const isSeen = (element) => element.checkVisibility() && !element.closest('.unseen, .skip');
const hasText = (element) =>
  [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim());

for (const element of document.body.querySelectorAll('*')) {
  if (!isSeen(element) || !hasText(element) || element.closest(':disabled, canvas, script')) continue;
  const style = getComputedStyle(element);
  const size = parseFloat(style.fontSize);
  const large = size >= 24 || (size >= 18.66 && Number(style.fontWeight) >= 700);
  const found = contrast(numbers(style.color), ground(element));
  if (found < (large ? 3 : 4.5)) {
    complaints.push(`contrast ${found.toFixed(2)}: ${element.textContent.trim().slice(0, 40)}`);
  }
}
for (const control of document.querySelectorAll('button, input, select, textarea, summary')) {
  if (!isSeen(control)) continue;
  const box = control.getBoundingClientRect();
  const least = control.closest('#commands button, header') ? 44 : 24;
  if (box.height < least || box.width < least) complaints.push(`small: ${control.id || control.textContent}`);
  const name = control.textContent.trim() || (control.labels && control.labels.length > 0);
  if (!name) complaints.push(`no name: ${control.id}`);
}
const ids = [...document.querySelectorAll('[id]')].map((element) => element.id);
ids.filter((id, i) => ids.indexOf(id) !== i).forEach((id) => complaints.push(`twice: ${id}`));
return complaints;
