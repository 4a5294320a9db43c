/** A film of K and S per unit of thickness, over a backing. */
type FilmOverBacking = readonly [k: number, s: number, thickness: number, backing: number];

/** R0, T, R and R∞ of films: Kubelka 1948 in mpmath, 30 digits, computed by us. */
// biome-ignore format: a table
export const FILMS_COMPUTED: readonly (readonly [
  ...FilmOverBacking, overBacking: number, r0: number, t: number, rInfinity: number,
])[] = [
  [0.01, 1, 1, 0.8, 0.8197256322498501, 0.4958617758427188, 0.494204526020961, 0.8682255312124217],
  [0.1, 1, 0.5, 0.9, 0.823933211707396, 0.3189916689369678, 0.6324349873226993, 0.641742430504416],
  [1, 1, 1, 0.04, 0.2612416890134496, 0.2601467170280254, 0.1645887185330692, 0.2679491924311227],
  [1, 1, 1, 0.85, 0.2897098956372077, 0.2601467170280254, 0.1645887185330692, 0.2679491924311227],
  [5, 0.5, 0.2, 0.8, 0.1325710363751009, 0.04046509416877564, 0.3337744030524567, 0.04554884989667773],
  [0.001, 0.05, 10, 0.03, 0.3435752553828779, 0.3303896928946669, 0.6596683831031406, 0.8190024875775822],
  [0.001, 0.05, 10, 0.8, 0.8035927141131621, 0.3303896928946669, 0.6596683831031406, 0.8190024875775822],
  [1e-8, 2, 1, 0.8, 0.857142844761905, 0.6666666614814815, 0.3333333285185185, 0.999900004999875],
  [0, 2, 1, 0.8, 0.8571428571428571, 0.6666666666666666, 0.3333333333333333, 1],
  [0.3, 0, 1, 0.8, 0.4390493088752211, 0, 0.7408182206817179, 0],
  [2, 30, 1, 0.05, 0.6954823757378866, 0.6954823757349493, 7.530209066134832e-6, 0.6954823758113319],
  [2, 30, 1, 0.8, 0.6954823758372076, 0.6954823757349493, 7.530209066134832e-6, 0.6954823758113319],
  [0.05, 60, 3, 0.05, 0.9599999690549074, 0.9599999689216054, 5.037926022378513e-5, 0.96],
];

/** Films over a backing: unit test of a painterly-rendering library (T. Lindemeier), which allows 1e-5. */
export const FILMS_PUBLISHED: readonly (readonly [...FilmOverBacking, overBacking: number])[] = [
  [0.2, 0.124, 0.5, 0.65, 0.541596],
  [0.1, 0.658, 0.5, 0.2, 0.343822],
  [0.22, 0.123, 0.5, 0.2146, 0.206651],
  [0.2, 0, 0.5, 0.65, 0.5321749972763817],
];

/** R∞ and K/S = (1 − R∞)²/2R∞ to 15 digits, computed by us. */
// biome-ignore format: a table
export const FILMS_THAT_HIDE: readonly (readonly [rInfinity: number, ratio: number])[] = [
  [0.01, 49.005], [0.03, 15.6816666666667], [0.04, 11.52], [0.07, 6.17785714285714],
  [0.11, 3.60045454545455], [0.19, 1.72657894736842], [0.2, 1.6], [0.25, 1.125],
  [0.33, 0.680151515151515], [0.39, 0.477051282051282], [0.5, 0.25], [0.62, 0.116451612903226],
  [0.7, 0.0642857142857143], [0.8, 0.025], [0.88, 0.00818181818181818], [0.95, 0.00131578947368421],
  [0.99, 0.0000505050505050505], [1, 0],
];

/** Films over black and over white: the arcoth form of Kubelka 1948, computed by us. */
// biome-ignore format: a table
export const FILMS_OVER_TWO_BACKINGS: readonly (readonly [
  k: number, s: number, thickness: number, black: number, white: number, overBlack: number, overWhite: number,
])[] = [
  [0.1, 1, 0.5, 0, 0.8, 0.3189916689369679, 0.748605454168266],
  [0.1, 1, 0.5, 0.04, 0.85, 0.335197409311297, 0.7854451340754006],
  [0.5, 2, 0.3, 0.02, 0.8, 0.3359914173978167, 0.6383966524307252],
  [0.01, 40, 0.05, 0.05, 0.88, 0.6721462641901507, 0.9024949645159854],
  [3, 1.5, 0.4, 0.03, 0.82, 0.1669324626254077, 0.1960526257511653],
];

/**
 * Sheets of paper over black and over a pad of the same: grammage in g/m², R0, R∞, and s and k in m²/kg. The form of
 * ISO 9416, from memory; computed by us.
 */
// biome-ignore format: a table
export const FILMS_OF_PAPER: readonly (readonly [
  grammage: number, r0: number, rInfinity: number, s: number, k: number,
])[] = [
  [80, 0.75, 0.82, 47.12926075556934, 0.9310902734636876],
  [60, 0.68, 0.78, 43.098177737371934, 1.3371485913389751],
  [45, 0.52, 0.58, 37.09188114592927, 5.640523994949936],
  [52, 0.6, 0.89, 29.453518375269667, 0.2002177372700915],
];

/** Reflectance of one face of a glass plate and of the plate: tests of mitsuba3, n = 1.5, six digits. */
export const FILMS_OF_GLASS: readonly (readonly [face: number, plate: number])[] = [
  [1, 1],
  [0.338894, 0.50623],
  [0.0891867128, 0.163768],
  [0.04, 0.076923],
];
