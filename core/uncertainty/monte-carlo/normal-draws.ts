import { centred, type RandomStream } from "./random-stream.ts";

/** Boxes of equal area that the density's right half is cut into. */
const boxes = 256;
/** Where the lowest box ends and the tail begins, and the area of each box. */
const tailStart = 3.6541528853610088;
const area = 4.928673233975e-3;

/** Right edge of each box from the lowest, whose edge is where it would end without its tail; the topmost ends at 0. */
export const edges: Float64Array = boxEdges();
/** The next box's edge over this one's: within it, a point of the box is surely under the density. */
const ratios = Float64Array.from({ length: boxes }, (_, box) => (edges[box + 1] as number) / (edges[box] as number));

/** The density at each edge, up to its factor. */
const densities = edges.map(density);

function density(x: number): number {
  return Math.exp(-0.5 * x * x);
}

function boxEdges(): Float64Array {
  const found = new Float64Array(boxes + 1);
  found[0] = area / density(tailStart);
  found[1] = tailStart;
  for (let box = 2; box < boxes; box += 1) {
    const before = found[box - 1] as number;
    found[box] = Math.sqrt(-2 * Math.log(area / before + density(before)));
  }
  return found;
}

/**
 * Fills with draws from the normal distribution with mean 0 and standard deviation 1, by the ziggurat method.
 *
 * Sources: G. Marsaglia and W. W. Tsang, The ziggurat method for generating random variables, J. Stat. Softw. 5(8), 2000; with J. A.
 * Doornik's corrections (An improved ziggurat method to generate normal random samples, 2005): the box is chosen by bits that the draw
 * itself does not use, and the draw has 52 bits. Constants of 256 boxes from memory; that they close at the density's top is tested.
 */
export function fillNormal(stream: RandomStream, draws: Float64Array, words: Int32Array): void {
  if (unsettled.length < draws.length) unsettled = new Int32Array(draws.length);
  stream.fill(words);
  let waiting = 0;
  for (let index = 0; index < draws.length; index += 1) {
    const second = words[2 * index + 1] as number;
    const uniform = centred(words[2 * index] as number, second);
    const box = second & (boxes - 1);
    draws[index] = uniform * (edges[box] as number);
    if (Math.abs(uniform) < (ratios[box] as number)) continue;
    unsettled[waiting] = index;
    waiting += 1;
  }
  for (let place = 0; place < waiting; place += 1) {
    const index = unsettled[place] as number;
    const second = words[2 * index + 1] as number;
    draws[index] = atTheEdge(stream, second & (boxes - 1), centred(words[2 * index] as number, second));
  }
}

/** Draws that the boxes' insides do not settle, about one in a hundred: they are put off, which keeps the first loop short. */
let unsettled = new Int32Array(0);

const pair = new Int32Array(2);

function atTheEdge(stream: RandomStream, firstBox: number, firstUniform: number): number {
  let box = firstBox;
  let uniform = firstUniform;
  for (;;) {
    const edge = edges[box] as number;
    if (Math.abs(uniform) < (ratios[box] as number)) return uniform * edge;
    if (box === 0) return uniform < 0 ? -beyond(stream) : beyond(stream);
    const x = uniform * edge;
    const lower = densities[box] as number;
    const upper = densities[box + 1] as number;
    if (lower + stream.uniform() * (upper - lower) < density(x)) return x;
    stream.fill(pair);
    uniform = centred(pair[0] as number, pair[1] as number);
    box = (pair[1] as number) & (boxes - 1);
  }
}

/** A draw beyond the start of the tail (G. Marsaglia, Technometrics 6, 101, 1964). */
function beyond(stream: RandomStream): number {
  for (;;) {
    const x = -Math.log(stream.uniform()) / tailStart;
    const y = -Math.log(stream.uniform());
    if (2 * y >= x * x) return tailStart + x;
  }
}
