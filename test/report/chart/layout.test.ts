import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { areasOverlap } from "../../../src/report/chart/area.js";
import { legend } from "../../../src/report/chart/legend.js";
import { placeLabels } from "../../../src/report/chart/placeLabels.js";
import { seriesStyle } from "../../../src/report/chart/seriesStyle.js";
import { spreadOut } from "../../../src/report/chart/spreadOut.js";
import { shortened, textWidth } from "../../../src/report/chart/textWidth.js";
import { everyNode, parseMarkup } from "../parseMarkup.js";

const pixel = fc.double({ min: 0, max: 300, noNaN: true });

describe("spreadOut", () => {
  it("keeps order, distance and the interval", () => {
    fc.assert(
      fc.property(fc.array(pixel, { minLength: 1, maxLength: 20 }), (wishes) => {
        const places = spreadOut(wishes, 15, [0, 300]);
        const order = wishes.map((_, i) => i).sort((a, b) => wishes[a] - wishes[b] || a - b);
        for (const place of places) {
          expect(place).toBeGreaterThanOrEqual(-1e-9);
          expect(place).toBeLessThanOrEqual(300 + 1e-9);
        }
        for (let n = 1; n < order.length; n++) {
          expect(places[order[n]] - places[order[n - 1]]).toBeGreaterThanOrEqual(15 - 1e-9);
        }
      }),
    );
  });

  it("moves nothing that is apart already, and shares out too little room", () => {
    expect(spreadOut([10, 200, 90], 15, [0, 300])).toEqual([10, 200, 90]);
    expect(spreadOut([5, 5, 5], 15, [0, 20])).toEqual([0, 10, 20]);
  });
});

describe("placeLabels", () => {
  const area = { left: 0, top: 0, width: 300, height: 300 };

  it("puts labels of a few close points inside and beside one another", () => {
    const points = [
      [150, 150],
      [156, 152],
      [148, 160],
      [160, 145],
    ] as const;
    const labels = placeLabels(
      points.map((at, i) => ({ at, text: `label ${i}` })),
      points,
      area,
    );
    labels.forEach(({ box }, i) => {
      expect(box.left).toBeGreaterThanOrEqual(0);
      expect(box.left + box.width).toBeLessThanOrEqual(300);
      for (const [x, y] of points) {
        expect(areasOverlap(box, { left: x - 2, top: y - 2, width: 4, height: 4 })).toBe(false);
      }
      for (const other of labels.slice(i + 1)) expect(areasOverlap(box, other.box)).toBe(false);
    });
  });

  it("has a place even where there is no room", () => {
    const labels = Array.from({ length: 60 }, () => ({ at: [5, 5] as const, text: "far too long a label" }));
    expect(placeLabels(labels, [[5, 5]], { left: 0, top: 0, width: 10, height: 10 })).toHaveLength(60);
  });
});

describe("legend", () => {
  it("begins a new row before it runs out of the figure, and says how high it is", () => {
    const entries = Array.from({ length: 9 }, (_, i) => ({
      text: `series number ${i}`,
      style: seriesStyle(i),
    }));
    const { markup, height } = legend(entries, { left: 14, top: 36, width: 400 });
    const texts = everyNode(parseMarkup(markup.markup)).filter(({ name }) => name === "text");
    expect(texts.map(({ text }) => text)).toEqual(entries.map(({ text }) => text));
    for (const { attributes, text } of texts) {
      expect(Number(attributes.x) + textWidth(text)).toBeLessThanOrEqual(14 + 400);
      expect(Number(attributes.y)).toBeLessThan(36 + height);
    }
  });

  it("takes no room when it is empty", () => {
    expect(legend([], { left: 0, top: 0, width: 100 }).height).toBe(0);
  });
});

it("shortened texts have room and tell that something is gone", () => {
  fc.assert(
    fc.property(fc.string(), fc.double({ min: 20, max: 200, noNaN: true }), (text, room) => {
      const short = shortened(text, room);
      expect(textWidth(short)).toBeLessThanOrEqual(room + 1e-9);
      if (short !== text) expect(short.endsWith("…")).toBe(true);
    }),
  );
});

it("no two of thirty series look the same", () => {
  const looks = Array.from({ length: 30 }, (_, i) => JSON.stringify(seriesStyle(i)));
  expect(new Set(looks).size).toBe(30);
});
