import { describe, expect, it } from "vitest";
import { createWork } from "../../src/core/createWork.js";

describe("work counted against a budget", () => {
  it("is spent when as many steps are done as were allowed", () => {
    const work = createWork(10);
    expect(work.spend(4)).toBe(true);
    expect([work.left(), work.done(), work.isSpent()]).toEqual([6, 4, false]);
    expect(work.spend(6)).toBe(false);
    expect([work.left(), work.done(), work.isSpent()]).toEqual([0, 10, true]);
    expect(createWork(0).isSpent()).toBe(true);
  });

  it("a share is a part of what is left and counts for the whole; what it leaves is there for the next", () => {
    const work = createWork(100);
    work.spend(20);
    const first = work.share(0.5);
    expect(first.left()).toBe(40);
    expect(first.spend(10)).toBe(true);
    expect(work.left()).toBe(70);
    const second = work.share(1);
    expect(second.spend(70)).toBe(false);
    expect(first.isSpent()).toBe(true);
    expect(first.left()).toBe(0);
    expect(work.done()).toBe(100);
    expect(work.share(0.5).left()).toBe(0);
  });

  it("asks the host about every million steps, and once told to stop is spent for every share", () => {
    let asked = 0;
    const work = createWork(1e12, () => ++asked === 3);
    const share = work.share(0.5);
    for (let i = 0; i < 25; i++) share.spend(1e5);
    expect(asked).toBe(2);
    expect(share.isSpent()).toBe(false);
    for (let i = 0; i < 5; i++) share.spend(1e5);
    expect(asked).toBe(3);
    expect([work.isSpent(), share.isSpent(), share.share(1).isSpent()]).toEqual([true, true, true]);
    work.spend(1e9);
    expect(asked).toBe(3);
  });
});
