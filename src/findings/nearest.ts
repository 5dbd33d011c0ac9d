/** "Did you mean": the known word nearest to one that is not known. */

/** Edits between two words, a swap of neighbours counting as one (optimal string alignment). */
export function editDistance(a: string, b: string): number {
  let before: readonly number[] = [];
  let row: readonly number[] = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1];
      let cost = Math.min((row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1, (row[j - 1] ?? 0) + (same ? 0 : 1));
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        cost = Math.min(cost, (before[j - 2] ?? 0) + 1);
      next.push(cost);
    }
    before = row;
    row = next;
  }
  return row[b.length] ?? 0;
}

/** Words longer than this are not compared: no one mistypes them by accident, and the table would be large. */
const LONGEST = 64;

/** Half the typed letters may be wrong, one in a word of up to three; letter case costs nothing. */
const allowed = (word: string): number => Math.max(1, Math.min(4, Math.floor(word.length / 2)));

/**
 * The nearest of `words`, the first in its order among equals; null where none is near. Signs between letters cost
 * nothing. A word that begins like the typed one or is its beginning counts as near too (`place` for `places`).
 */
export function nearest(word: string, words: Iterable<string>): string | null {
  const known = [...words];
  const typed = word.toLowerCase();
  if (typed.length === 0 || typed.length > LONGEST) return null;
  const bare = (text: string): string => text.toLowerCase().replace(/[.\s_-]/g, "");
  for (const candidate of known) if (bare(candidate) === bare(word)) return candidate;
  let best: string | null = null;
  let least = allowed(typed) + 1;
  for (const candidate of known) {
    const plain = candidate.toLowerCase();
    if (plain.length > LONGEST || Math.abs(plain.length - typed.length) >= least) continue;
    const distance = editDistance(typed, plain);
    if (distance < least) {
      best = candidate;
      least = distance;
    }
  }
  return best ?? startingAlike(typed, known);
}

/** As `nearest`, for what may be a word of one's own: two slips in six letters, one in three, none in fewer. */
export function slipOf(word: string, known: Iterable<string>): string | null {
  const typed = word.toLowerCase();
  const most = Math.min(2, Math.floor(typed.length / 3));
  if (most === 0 || typed.length > LONGEST) return null;
  const alike = [...known].filter((candidate) => Math.abs(candidate.length - typed.length) <= most);
  const near = alike.map((candidate) => ({ candidate, by: editDistance(typed, candidate.toLowerCase()) }));
  return near.filter(({ by }) => by <= most).sort((a, b) => a.by - b.by)[0]?.candidate ?? null;
}

function startingAlike(typed: string, known: readonly string[]): string | null {
  if (typed.length < 3) return null;
  for (const candidate of known) {
    const plain = candidate.toLowerCase();
    if (plain.startsWith(typed) || (plain.length >= 3 && typed.startsWith(plain))) return candidate;
  }
  return null;
}
