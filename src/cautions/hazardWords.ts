/** The words by which people name hazards, and the words beside them that name none. */

/** The hazards that have words of their own; `other` is printed as it is written. */
export type HazardKind = Known | "other";

/** A hazard of which a table says more. */
export type Known = "ice" | "lines" | "mast" | "roadside" | "water" | "generator";

/** The words of each kind: the first is its name, the rest are near it. */
export const WORDS: readonly (readonly [Known, readonly string[]])[] = [
  ["ice", ["ice", "icy", "frozen"]],
  [
    "lines",
    ["lines", "line", "cables", "cable", "wires", "wire", "powerline", "powerlines", "catenary", "pylon", "pylons"],
  ],
  ["mast", ["mast", "masts", "boom"]],
  [
    "roadside",
    ["roadside", "road", "roads", "highway", "shoulder", "verge", "traffic", "street", "motorway", "freeway"],
  ],
  ["water", ["water", "lake", "river", "quay", "waves", "surf", "tide", "canal", "harbor", "harbour"]],
  ["generator", ["generator", "generators", "genset", "gensets"]],
];

/** With one of these words and no thickness, ice is what people slip on, not what bears them. */
export const SLIPPERY: ReadonlySet<string> = new Set(
  "black road roads street highway steps stairs ramp path sidewalk pavement parking lot deck bridge roof driveway yard".split(
    " ",
  ),
);

/** Words that say where, how much or what sort; an entry of known words and these needs no line of its own. */
export const FILLER: readonly string[] = [
  "a an the and or of on at in by to near under over above beside along around with without from about some very not no only is are",
  "mm cm m meter meters metre metres in inch inches ft foot feet kg t lb kv v kilovolt kilovolts volt volts voltage mph km h kph kmh",
  "overhead power electric electrical high low medium open deep cold busy fast thin thick clear new old white snow black live",
  "work working vehicle vehicles people foot place side edge tower towers telescopic",
  "pier dock bank shore shoreline bay pond beach bridge town city country",
].flatMap((line) => line.split(" "));
