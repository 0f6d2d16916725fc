// Car numbers that look alike, as the core's `CarNumber::is_near` compares them.
import assert from "node:assert/strict";
import { test } from "node:test";
import { isOneSlip, plainCar } from "../src/expected.ts";

test("one car typed three ways is one car", () => {
  for (const text of ["zzqx 004417", "ZZQX4417", " ZZQX-4417 "]) {
    assert.equal(plainCar(text), "ZZQX4417");
    assert.equal(isOneSlip(text, "ZZQX 4417"), false);
  }
});

test("one slip of a tired hand is near, and two are not", () => {
  for (const near of ["ZZQX 4471", "ZZQX 4418", "ZZQX 441", "ZZQX 44170", "ZQZX 4417"])
    assert.equal(isOneSlip(near, "ZZQX 4417"), true, near);
  for (const far of ["ZZQX 4417", "ZZQX 4481", "ZZQX 7441", "ZZQX 44", ""])
    assert.equal(isOneSlip(far, "ZZQX 4417"), false, far);
});
