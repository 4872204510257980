/** Seconds as prose: `83` → "1 min 23 s". Whole seconds; below a second "under 1 s". */
export function prose(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  if (whole === 0) return 'under 1 s';
  const [minutes, rest] = [Math.floor(whole / 60), whole % 60];
  if (minutes === 0) return `${rest} s`;
  return rest === 0 ? `${minutes} min` : `${minutes} min ${rest} s`;
}

/** Seconds for a table: `83` → "1:23", `3723` → "1:02:03". */
export function clock(seconds: number): string {
  const whole = Math.round(Math.abs(seconds));
  const two = (value: number) => String(value).padStart(2, '0');
  const [hours, minutes, rest] = [Math.floor(whole / 3600), Math.floor((whole % 3600) / 60), whole % 60];
  return hours > 0 ? `${hours}:${two(minutes)}:${two(rest)}` : `${minutes}:${two(rest)}`;
}
