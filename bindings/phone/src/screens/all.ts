/**
 * Which component draws which screen. Lives here: the list. Not here: when a screen is shown
 * (`Shown.svelte`).
 */
import type { Component } from "svelte";
import type { Screen } from "../parts/context";
import Ask from "./Ask.svelte";
import Blocker from "./Blocker.svelte";
import Car from "./Car.svelte";
import Carry from "./Carry.svelte";
import Cars from "./Cars.svelte";
import Defect from "./Defect.svelte";
import Defects from "./Defects.svelte";
import Differ from "./Differ.svelte";
import Enrol from "./Enrol.svelte";
import Entry from "./Entry.svelte";
import Figure from "./Figure.svelte";
import Find from "./Find.svelte";
import Form from "./Form.svelte";
import Gate from "./Gate.svelte";
import Guard from "./Guard.svelte";
import History from "./History.svelte";
import Holds from "./Holds.svelte";
import More from "./More.svelte";
import NewCar from "./NewCar.svelte";
import OnlyHere from "./OnlyHere.svelte";
import Photo from "./Photo.svelte";
import Pin from "./Pin.svelte";
import Proof from "./Proof.svelte";
import Seal from "./Seal.svelte";
import Setup from "./Setup.svelte";
import Step from "./Step.svelte";
import Steps from "./Steps.svelte";
import Tally from "./Tally.svelte";
import Where from "./Where.svelte";
import Who from "./Who.svelte";

type Screens = Partial<Record<Screen, Component>>;

/** Screens that need no car. */
export const WITHOUT_CAR: Screens = {
  cars: Cars,
  new: NewCar,
  only_here: OnlyHere,
  find: Find,
  setup: Setup,
  enrol: Enrol,
  who: Who,
  pin: Pin,
  where: Where,
  carry: Carry,
  guard: Guard,
};

/** Screens about the car that is open. */
export const WITH_CAR: Screens = {
  car: Car,
  step: Step,
  steps: Steps,
  more: More,
  figure: Figure,
  ask: Ask,
  form: Form,
  proof: Proof,
  tally: Tally,
  seal: Seal,
  defect: Defect,
  defects: Defects,
  holds: Holds,
  differ: Differ,
  gate: Gate,
  blocker: Blocker,
  history: History,
  entry: Entry,
  photo: Photo,
};
