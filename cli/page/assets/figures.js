// SPDX-License-Identifier: GPL-3.0-or-later
// Figures as they stand on the tape under a slider: of the plan's own numbers, written as its tape is divided.

/** Into how many parts of a power of two one is divided, or null where it is divided by tens. */
function parts_of_one(step) {
  for (let parts = 2; parts <= 64; parts *= 2) if (Math.abs(step * parts - 1) < 1e-9) return parts === 2 ? null : parts;
  return null;
}

function fraction(over, parts) {
  while (over % 2 === 0 && parts > 1) {
    over /= 2;
    parts /= 2;
  }
  return `${over}/${parts}`;
}

/** A count of tape steps as it is read: `52.5`, or `24 3/4` where the step is a fraction. */
export function reading(steps, step) {
  const parts = parts_of_one(step);
  if (parts === null) {
    const digits = Math.max(0, Math.min(6, Math.ceil(-Math.log10(step) - 1e-9)));
    return String(Number((steps * step).toFixed(digits)));
  }
  const whole = Math.floor(steps / parts);
  const over = steps - whole * parts;
  if (over === 0) return String(whole);
  return whole === 0 ? fraction(over, parts) : `${whole} ${fraction(over, parts)}`;
}

const near = 1e-6; // of a step: there a figure is on the tape

export const steps_up = (value, step) => Math.ceil(value / step - near);
export const steps_down = (value, step) => Math.floor(value / step + near);
export const steps_near = (value, step) => Math.round(value / step);
