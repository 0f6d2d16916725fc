// Where the person is, in the address and out of it.
import assert from "node:assert/strict";
import { test } from "node:test";
import { hashOf, placeOf } from "../src/parts/place.ts";

test("without an address the list of cars is shown", () => {
  for (const hash of ["", "#"]) assert.deepEqual(placeOf(hash), { screen: "cars", visit: "", about: "" });
});

test("a place comes back out of its address, whatever it is about", () => {
  const abouts = ["", "liquid_a", "paper|", "join|7/8", "check/a/b #c"];
  for (const about of abouts) {
    const place = { screen: "form", visit: "0190-visit", about };
    assert.deepEqual(placeOf(hashOf(place)), place);
    assert.equal(hashOf(place).split("/").length, 3, "no slash of its own");
  }
});

test("an enrolment link leads to enrolling, with its code and key as they came", () => {
  const link = "#enrol=ABCD-1234&key=aGVsbG8";
  assert.deepEqual(placeOf(link), { screen: "enrol", visit: "", about: link });
});
