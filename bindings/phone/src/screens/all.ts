/**
 * Which component draws which screen. Lives here: the list. Not here: when a screen is shown
 * (`Shown.svelte`).
 */
import type { Component } from "svelte";
import type { Screen } from "../parts/context";
import Ask from "./Ask.svelte";
import Blocker from "./Blocker.svelte";
import Car from "./Car.svelte";
import Carried from "./Carried.svelte";
import Carry from "./Carry.svelte";
import Cars from "./Cars.svelte";
import Defect from "./Defect.svelte";
import Defects from "./Defects.svelte";
import Differ from "./Differ.svelte";
import Else from "./Else.svelte";
import Enrol from "./Enrol.svelte";
import Entry from "./Entry.svelte";
import Figure from "./Figure.svelte";
import Find from "./Find.svelte";
import Form from "./Form.svelte";
import Gate from "./Gate.svelte";
import Guard from "./Guard.svelte";
import History from "./History.svelte";
import Holds from "./Holds.svelte";
import Language from "./Language.svelte";
import LastRound from "./LastRound.svelte";
import More from "./More.svelte";
import NewCar from "./NewCar.svelte";
import Now from "./Now.svelte";
import OnlyHere from "./OnlyHere.svelte";
import Override from "./Override.svelte";
import Paper from "./Paper.svelte";
import Photo from "./Photo.svelte";
import Pin from "./Pin.svelte";
import Proof from "./Proof.svelte";
import Seal from "./Seal.svelte";
import Setup from "./Setup.svelte";
import Strip from "./Strip.svelte";
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
  language: Language,
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
  carried: Carried,
  step: Now,
  steps: Steps,
  paper: Paper,
  more: More,
  else: Else,
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
  override: Override,
  round: LastRound,
  blocker: Blocker,
  history: History,
  entry: Entry,
  strip: Strip,
  photo: Photo,
};
