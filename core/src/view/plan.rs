//! The plan of the fittings under the housing, seen from above, as lines that a screen only strokes.
//!
//! A solid fitting is shut or tight, a half-filled one is closed by hand, a hollow one is open, and a dashed one
//! is not recorded. The places are a typical layout (common practice, no source), and the plan says so. Lengths
//! are inches at the car: along it from the middle of the housing toward the B end, and across it toward the
//! viewer.

use serde::Serialize;

use super::fittings::FittingView;
use super::seals::CoverState;
use crate::entry::vocabulary::{ClosureState, Fitting, Heard, ValvePosition};
use crate::units::bounds::MOST_BOLTS;
use crate::{Arg, Message, message};

/// The inside radius of the housing and the thickness of its wall, in inches; typical values (common practice,
/// no source).
const RADIUS: f64 = 17.5;
const WALL: f64 = 1.1;
/// Half the width of the drawing, in inches.
const HALF: f64 = RADIUS + WALL + 2.2;
/// The distance between two lines of words, in inches.
const LINE: f64 = 1.85;

/// The plan of a car's fittings.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct HousingPlan {
    /// The smallest coordinates and the size of the drawing: left, top, width and height, in inches.
    pub bounds: [f64; 4],
    /// The tank's shell, the housing, its cover's bolts and the pin.
    pub ground: Vec<PlanShape>,
    /// The fittings.
    pub fittings: Vec<PlanFitting>,
    /// The words at the edges: the ends of the car, the scale, the cover.
    pub words: Vec<PlanText>,
    /// The target of the cover.
    pub cover: PlanTarget,
}

/// A line or an area of the plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PlanShape {
    /// What it is, for the pen: `solid`, `hollow-hot`, `unknown` and so on. Hot is what needs attention.
    pub pen: &'static str,
    /// The path in the language of SVG 1.1, section 8.3, in inches.
    pub path: String,
}

/// A fitting of the plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PlanFitting {
    /// Which one.
    pub fitting: Fitting,
    /// Its centre, in inches.
    pub at: [f64; 2],
    /// How far its shapes are turned about its centre, in degrees: 0 if the outlet points toward the B end, 90 if
    /// it points toward the viewer.
    pub turned: f64,
    /// The shapes, with the outlet toward the B end and the centre at nought.
    pub shapes: Vec<PlanShape>,
    /// The corners around the fitting when it is chosen, drawn as the shapes are.
    pub chosen: String,
    /// A mark on the housing's rim that points at the fitting when it is next; empty for one outside.
    pub next: String,
    /// Its name and state.
    pub words: Vec<PlanText>,
    /// Where it is touched.
    pub target: PlanTarget,
}

/// A place to touch.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PlanTarget {
    /// Its centre, in inches.
    pub at: [f64; 2],
    /// Its radius, in inches.
    pub radius: f64,
    /// The frame around what is touched when it is chosen, in the drawing's own coordinates; empty for a
    /// fitting, which has one of its own.
    pub chosen: String,
}

/// Words on the plan, on one line.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PlanText {
    /// Where the line begins, is in the middle or ends, in inches.
    pub at: [f64; 2],
    /// Which of these is there: `start`, `middle` or `end`.
    pub anchor: &'static str,
    /// The words, each with its pen, divided by a dot.
    pub words: Vec<PlanWord>,
    /// Whether each of the words may stand on a line of its own, as beside the housing.
    pub narrow: bool,
}

/// A word of the plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PlanWord {
    /// The word.
    pub says: Message,
    /// Its pen: `name`, `state`, `state-hot` or `small`.
    pub pen: &'static str,
}

/// A path that is being drawn.
#[derive(Default)]
struct Pen(String);

impl Pen {
    fn to(mut self, command: char, numbers: &[f64]) -> Pen {
        self.0.push(command);
        for (n, number) in numbers.iter().enumerate() {
            if n > 0 {
                self.0.push(' ');
            }
            self.0.push_str(&((number * 100.0).round() / 100.0).to_string());
        }
        self
    }

    fn rectangle(self, [x, y]: [f64; 2], [width, height]: [f64; 2]) -> Pen {
        self.to('M', &[x, y]).to('h', &[width]).to('v', &[height]).to('h', &[-width]).to('z', &[])
    }

    fn circle(self, [x, y]: [f64; 2], radius: f64) -> Pen {
        let half = [radius, radius, 0.0, 1.0, 0.0];
        let there = [half.as_slice(), &[2.0 * radius, 0.0]].concat();
        let back = [half.as_slice(), &[-2.0 * radius, 0.0]].concat();
        self.to('M', &[x - radius, y]).to('a', &there).to('a', &back).to('z', &[])
    }

    fn hexagon(self, radius: f64) -> Pen {
        let (near, far) = (radius / 2.0, radius * 0.866);
        let corners = [(near, far), (-near, far), (-radius, 0.0), (-near, -far), (near, -far)];
        corners.iter().fold(self.to('M', &[radius, 0.0]), |pen, (x, y)| pen.to('L', &[*x, *y])).to('z', &[])
    }

    fn of(self, pen: &'static str) -> PlanShape {
        PlanShape { pen, path: self.0 }
    }
}

fn pen() -> Pen {
    Pen::default()
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Valve,
    SmallValve,
    Cap,
    Relief,
}

/// The sizes of a kind of fitting, in inches.
struct Size {
    /// The radius of the body.
    body: f64,
    /// The length of the outlet beyond the body.
    spout: f64,
    /// Half the width of the outlet.
    half: f64,
    /// The length of the plug's head.
    head: f64,
}

impl Kind {
    const fn size(self) -> Size {
        match self {
            Kind::Valve => Size { body: 2.9, spout: 2.6, half: 1.35, head: 1.6 },
            Kind::SmallValve => Size { body: 1.7, spout: 1.5, half: 0.75, head: 1.0 },
            Kind::Cap => Size { body: 1.8, spout: 0.0, half: 0.0, head: 0.0 },
            Kind::Relief => Size { body: 2.6, spout: 0.0, half: 0.0, head: 0.0 },
        }
    }

    const fn is_valve(self) -> bool {
        matches!(self, Kind::Valve | Kind::SmallValve)
    }
}

/// The place of a fitting in the typical layout, and of its words beside its centre.
struct Place {
    kind: Kind,
    at: [f64; 2],
    turned: f64,
    label: [f64; 2],
    anchor: &'static str,
    /// Whether the states of valve and closure stand on lines of their own.
    stacked: bool,
}

/// `two`: the car has a second vapor valve toward the viewer, and the small openings sit further out.
fn place(fitting: Fitting, two: bool) -> Place {
    let place = |kind, at, turned, label, anchor, stacked| Place { kind, at, turned, label, anchor, stacked };
    let side = |alone, beside| if two { beside } else { alone };
    match fitting {
        Fitting::LiquidA => place(Kind::Valve, [-9.2, 0.0], 180.0, [-1.2, -6.75], "middle", false),
        Fitting::LiquidB => place(Kind::Valve, [9.2, 0.0], 0.0, [1.2, -6.75], "middle", false),
        Fitting::Vapour => place(Kind::Valve, [0.0, -8.8], -90.0, [4.6, -3.9], "start", true),
        Fitting::VapourTwo => place(Kind::Valve, [0.0, 8.8], 90.0, [4.3, 1.0], "start", true),
        Fitting::GaugingDevice => place(Kind::Cap, [0.0, 0.0], 0.0, [0.0, 3.6], "middle", true),
        Fitting::SampleLine => {
            let at = side([-5.2, 8.2], [-8.4, 8.2]);
            place(Kind::SmallValve, at, 180.0, [-0.6, 4.1], "middle", false)
        }
        Fitting::ThermometerWell => {
            place(Kind::Cap, side([5.4, 8.2], [9.4, 8.4]), 0.0, [1.0, 4.1], "middle", false)
        }
        Fitting::ReliefDevice => place(Kind::Relief, [16.6, -15.2], 0.0, [2.9, 4.4], "end", true),
    }
}

/// Returns a valve with its outlet and what is on the outlet.
fn valve(size: &Size, view: &FittingView) -> Vec<PlanShape> {
    let Size { body, spout, half, head } = *size;
    let tip = body + spout;
    let start = body - 0.3;
    let outlet = pen().to('M', &[start, -half]).to('H', &[tip]).to('M', &[start, half]).to('H', &[tip]);
    let mut shapes = vec![outlet.of("line")];
    if view.line.as_ref().is_some_and(|line| line.value.connected) {
        // A hose leaves through the housing's wall.
        let hose = || pen().to('M', &[tip, 0.0]).to('H', &[30.0]);
        shapes.extend([hose().of("hose"), hose().of("hose-core")]);
        let coupling = pen().rectangle([tip - 0.1, -half - 0.45], [1.2, 2.0 * half + 0.9]);
        shapes.push(coupling.of("solid"));
    } else {
        let wide = 2.0 * half + 1.0;
        match view.closure.as_ref().map(|known| known.value) {
            Some(ClosureState::ToolTight) => {
                let thread = pen().rectangle([tip - 1.1, -half], [1.2, 2.0 * half]);
                shapes.push(thread.rectangle([tip, -half - 0.5], [head, wide]).of("solid"));
            }
            Some(ClosureState::HandTight) => {
                let (x, long) = (tip + 0.75, 2.0 * half - 0.5);
                let turns = pen().to('M', &[tip + 0.25, 0.25 - half]).to('v', &[long]);
                shapes.push(turns.to('M', &[tip + 0.56, 0.25 - half]).to('v', &[long]).of("thin"));
                shapes.push(pen().rectangle([x, -half - 0.5], [head, wide]).of("hollow-hot"));
                shapes.push(pen().rectangle([x, 0.0], [head, half + 0.5]).of("hot-fill"));
            }
            Some(ClosureState::Open) => {
                let upper = pen().to('M', &[tip, -half]).to('l', &[0.9, -0.9]);
                shapes.push(upper.to('M', &[tip, half]).to('l', &[0.9, 0.9]).of("hot"));
            }
            None => {
                let plug = pen().rectangle([tip, -half - 0.4], [head, 2.0 * half + 0.8]);
                shapes.push(plug.of("unknown"));
            }
        }
    }
    let (bar, width) = (body * 1.28, body * 0.36);
    let whole = pen().circle([0.0, 0.0], body);
    // The handle lies across the outlet when the valve is shut, and along it when the valve is open.
    match view.valve.as_ref().map(|known| known.value) {
        Some(ValvePosition::Shut) => shapes.extend([
            whole.of("solid"),
            pen().rectangle([-width / 2.0, -bar], [width, 2.0 * bar]).of("bar-on-solid"),
        ]),
        Some(ValvePosition::Open) => shapes.extend([
            whole.of("hollow-hot"),
            pen().rectangle([-bar, -width / 2.0], [2.0 * bar, width]).of("bar-hot"),
        ]),
        None => shapes.push(whole.of("unknown")),
    }
    shapes
}

/// Returns a cap or plug straight above its opening.
fn cap(radius: f64, view: &FittingView) -> Vec<PlanShape> {
    let inner = |part: f64| pen().circle([0.0, 0.0], radius * part);
    match view.closure.as_ref().map(|known| known.value) {
        Some(ClosureState::ToolTight) => {
            vec![pen().hexagon(radius).of("solid"), inner(0.36).of("on-solid")]
        }
        Some(ClosureState::HandTight) => {
            let (near, far) = (radius / 2.0, radius * 0.866);
            let lower = pen().to('M', &[-radius, 0.0]).to('H', &[radius]).to('L', &[near, far]);
            vec![pen().hexagon(radius).of("hollow-hot"), lower.to('H', &[-near]).to('z', &[]).of("hot-fill")]
        }
        Some(ClosureState::Open) => vec![inner(1.0).of("hollow-hot"), inner(0.5).of("hot")],
        None => vec![pen().hexagon(radius).of("unknown")],
    }
}

/// Returns the relief valve, which nobody opens: a body with a spring in it.
fn relief(radius: f64) -> Vec<PlanShape> {
    let spring = radius * 0.62;
    let cross = pen().circle([0.0, 0.0], spring).to('M', &[-spring, 0.0]).to('H', &[spring]);
    vec![
        pen().circle([0.0, 0.0], radius).of("plain"),
        cross.to('M', &[0.0, -spring]).to('V', &[spring]).of("thin"),
    ]
}

/// Returns the sign of a leak, as strokes around the fitting.
fn leaking() -> PlanShape {
    let up = pen().to('M', &[-1.1, -1.6]).to('l', &[0.7, -1.5]).to('l', &[0.8, 1.0]).to('l', &[0.8, -1.7]);
    let left = up.to('M', &[-2.2, -0.7]).to('l', &[-1.2, -1.2]).to('l', &[0.2, 1.6]).to('l', &[-1.7, 0.0]);
    let right = left.to('M', &[2.2, -0.7]).to('l', &[1.0, -1.3]).to('l', &[0.2, 1.5]).to('l', &[1.6, -0.4]);
    right.of("hot")
}

/// Returns the corners around something from `back` to `front` and `side` to both sides.
fn corners(back: f64, front: f64, side: f64, length: f64) -> String {
    let corner = |pen: Pen, x: f64, y: f64| {
        pen.to('M', &[x, y - length * y.signum()]).to('V', &[y]).to('H', &[x - length * x.signum()])
    };
    let pen = corner(corner(pen(), -back, -side), front, -side);
    corner(corner(pen, front, side), -back, side).0
}

fn word(says: Message, is_hot: bool) -> PlanWord {
    PlanWord { says, pen: if is_hot { "state-hot" } else { "state" } }
}

/// Returns the recorded states of a fitting. What two records disagree about, and a leak, stand alone.
fn states(view: &FittingView, is_disputed: bool) -> Vec<PlanWord> {
    if is_disputed {
        return vec![word(message!("plan-differ"), true)];
    }
    if view.listen.as_ref().is_some_and(|heard| heard.value == Heard::Hiss) {
        return vec![word(message!("plan-leaking"), true)];
    }
    let unknown = || word(Message::typed("?"), false);
    let valve = view.valve.as_ref().map_or_else(unknown, |known| {
        word(Message::term("plan-valve", known.value.word()), known.value == ValvePosition::Open)
    });
    let outlet = if view.line.as_ref().is_some_and(|line| line.value.connected) {
        word(message!("plan-hose"), false)
    } else {
        view.closure.as_ref().map_or_else(unknown, |known| {
            word(Message::term("plan-closure", known.value.word()), known.value != ClosureState::ToolTight)
        })
    };
    if view.fitting.has_valve() { vec![valve, outlet] } else { vec![outlet] }
}

fn fitting(of: Fitting, view: Option<&FittingView>, two: bool, is_disputed: bool) -> PlanFitting {
    let Place { kind, at, turned, label, anchor, stacked } = place(of, two);
    let size = kind.size();
    let [x, y] = at;
    let mut shapes = match view {
        Some(view) if kind.is_valve() => valve(&size, view),
        Some(view) if kind == Kind::Cap => cap(size.body, view),
        _ => relief(size.body),
    };
    if view.is_some_and(|view| view.listen.as_ref().is_some_and(|heard| heard.value == Heard::Hiss)) {
        shapes.push(leaking());
    }
    let chosen = if kind.is_valve() {
        corners(size.body + 1.0, size.body + size.spout + size.head + 1.1, size.body * 1.28 + 0.5, 1.4)
    } else {
        corners(size.body + 1.0, size.body + 1.0, size.body + 0.6, 1.0)
    };
    // The target of a valve lies toward its outlet, where the work is.
    let reach = if kind.is_valve() { (size.body + size.spout) * 0.3 } else { 0.0 };
    let (sin, cos) = turned.to_radians().sin_cos();
    let is_outside = kind == Kind::Relief;
    let line = |down: f64, words, narrow| PlanText {
        at: [x + label[0], y + label[1] + LINE * down],
        anchor,
        words,
        narrow,
    };
    let name = PlanWord { says: Message::term("plan-fitting", of.word()), pen: "name" };
    let mut words = vec![line(0.0, vec![name], is_outside)];
    let states = view.filter(|_| !is_outside).map_or_else(Vec::new, |view| states(view, is_disputed));
    if stacked {
        let lines = states.into_iter().zip(1u8..);
        words.extend(lines.map(|(state, down)| line(f64::from(down), vec![state], false)));
    } else {
        words.push(line(1.0, states, false));
    }
    PlanFitting {
        fitting: of,
        at,
        turned,
        shapes,
        chosen,
        next: if is_outside { String::new() } else { rim_mark(x, y) },
        words,
        target: PlanTarget {
            at: [x + reach * cos, y + reach * sin],
            radius: if kind == Kind::Valve { 3.9 } else { 2.65 },
            chosen: String::new(),
        },
    }
}

/// Returns a mark on the rim of the housing that points from outside at what lies in this direction.
fn rim_mark(x: f64, y: f64) -> String {
    let (sin, cos) = y.atan2(x).sin_cos();
    let rim = RADIUS + WALL + 2.1;
    let at = |out: f64, across: f64| {
        let out = rim + out;
        [out * cos - across * sin, out * sin + across * cos]
    };
    pen().to('M', &at(0.0, -1.5)).to('L', &at(0.0, 1.5)).to('L', &at(-3.6, 0.0)).to('z', &[]).0
}

fn ground(cover: Option<CoverState>) -> Vec<PlanShape> {
    let (shell, outer, middle) = (RADIUS * 0.97, RADIUS + WALL, RADIUS + WALL / 2.0);
    let centre = [0.0, 0.0];
    let tank = pen().to('M', &[-HALF, -shell]).to('H', &[HALF]).to('M', &[-HALF, shell]).to('H', &[HALF]);
    let hinge = |x: f64| pen().to('M', &[x, -outer]).to('v', &[-1.5]).to('h', &[2.6]).to('v', &[1.5]);
    let mut shapes = vec![
        tank.of("hair"),
        pen().circle(centre, middle).of("wall"),
        pen().circle(centre, RADIUS).of("floor"),
        pen().circle(centre, RADIUS).of("edge"),
        pen().circle(centre, outer).of("edge"),
        hinge(-4.4).of("plain"),
        hinge(1.8).of("plain"),
        pen().to('M', &[-5.2, -outer - 0.8]).to('H', &[5.2]).of("thin"),
    ];
    let (there, wanted) = cover.map_or((0, 4), |cover| (cover.bolts_in_place, cover.bolts_required));
    // More bolts than a cover can have are stated in words and not drawn.
    for bolt in 0..if wanted > MOST_BOLTS { 0 } else { wanted } {
        let angle = 90.0 + 360.0 / f64::from(wanted) * (f64::from(bolt) + 0.5);
        let (sin, cos) = angle.to_radians().sin_cos();
        let (pen_of, radius) = if bolt < there { ("solid", 0.8) } else { ("hollow-hot", 1.0) };
        shapes.push(pen().circle([middle * cos, middle * sin], radius).of(pen_of));
    }
    shapes.push(pen().rectangle([-1.7, outer - 0.1], [3.4, 1.9]).of("plain"));
    shapes.push(if cover.is_some_and(|cover| cover.pinned) {
        pen().to('M', &[-3.0, outer + 0.9]).to('H', &[3.0]).of("pin")
    } else {
        pen().circle([0.0, outer + 0.9], 0.62).of("hollow-hot")
    });
    let (left, right, top, bottom) = edges();
    let arrow = |x: f64, y: f64, way: f64| {
        pen().to('M', &[x, y]).to('l', &[way, -0.9]).to('v', &[1.8]).to('z', &[]).of("arrow")
    };
    shapes.extend([arrow(left, top + 1.6, 1.5), arrow(right, bottom - 2.9, -1.5)]);
    shapes.push(
        pen().to('M', &[left, bottom - 4.1]).to('v', &[1.2]).to('h', &[12.0]).to('v', &[-1.2]).of("thin"),
    );
    shapes
}

/// Returns the left, right, upper and lower edge for words, in inches.
fn edges() -> (f64, f64, f64, f64) {
    (0.9 - HALF, HALF - 0.9, 0.9 - HALF, HALF - 0.2)
}

fn edge_words(cover: Option<CoverState>) -> Vec<PlanText> {
    let (left, right, top, bottom) = edges();
    let line =
        |at, anchor, says, pen| PlanText { at, anchor, words: vec![PlanWord { says, pen }], narrow: false };
    let number = |count: u16| Arg::Number(count.to_string());
    let (says, is_hot) = match cover {
        None => (message!("plan-cover-unknown"), false),
        Some(cover) if !cover.closed => (message!("plan-cover-open"), true),
        Some(cover) if !cover.pinned => (message!("plan-pin-out"), true),
        Some(CoverState { bolts_in_place: there, bolts_required: wanted, .. }) if there < wanted => {
            (message!("plan-bolts", there = number(there), wanted = number(wanted)), true)
        }
        Some(_) => (message!("plan-cover-closed"), false),
    };
    vec![
        line([left + 2.0, top + 2.2], "start", message!("plan-a-end"), "small"),
        line([right - 2.0, bottom - 2.3], "end", message!("plan-b-end"), "small"),
        line([left, bottom - 0.95], "start", message!("plan-foot"), "small"),
        line([-4.1, bottom], "end", message!("plan-typical"), "small"),
        line([4.1, bottom], "start", says, if is_hot { "state-hot" } else { "state" }),
    ]
}

/// Draws the plan of these fittings. About those that are disputed, two records disagree.
pub(super) fn draw(
    views: &[FittingView],
    cover: Option<CoverState>,
    is_disputed: impl Fn(Fitting) -> bool,
) -> HousingPlan {
    let two = views.iter().any(|view| view.fitting == Fitting::VapourTwo);
    let drawn = views.iter().filter(|view| view.fitting != Fitting::ReliefDevice);
    let mut fittings: Vec<PlanFitting> =
        drawn.map(|view| fitting(view.fitting, Some(view), two, is_disputed(view.fitting))).collect();
    // The relief valve is on every car, outside the housing, and nothing of it is operated.
    fittings.push(fitting(Fitting::ReliefDevice, None, two, false));
    let lug = RADIUS + WALL;
    HousingPlan {
        bounds: [-HALF, 0.9 - HALF, 2.0 * HALF, 2.0 * HALF - 0.4],
        ground: ground(cover),
        fittings,
        words: edge_words(cover),
        cover: PlanTarget {
            at: [0.0, lug + 0.4],
            radius: 2.65,
            chosen: pen().rectangle([-2.9, lug - 0.9], [5.8, 2.9]).0,
        },
    }
}
