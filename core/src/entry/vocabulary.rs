//! The words statements are made of: fittings, positions, places, purposes. No logic beyond names.
//!
//! Every enum here is wire format: a variant is never renamed or removed, only added.

use serde::{Deserialize, Serialize};
use std::fmt;

use crate::ids::Digest;

macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
        #[cfg_attr(test, derive(ts_rs::TS))]
        #[serde(rename_all = "snake_case")]
        pub enum $name { $($(#[$vdoc])* #[serde(rename = $word)] $variant),+ }
        impl $name {
            /// Every variant, in order.
            pub const ALL: &'static [$name] = &[$($name::$variant),+];
            /// The word as stored and as used in commands.
            pub const fn word(self) -> &'static str { match self { $($name::$variant => $word),+ } }
            /// The word with spaces, for people.
            pub fn spoken(self) -> String { self.word().replace('_', " ") }
            /// Reads the word.
            pub fn read(word: &str) -> Option<$name> {
                $name::ALL.iter().copied().find(|w| w.word() == word)
            }
        }
        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result { f.write_str(self.word()) }
        }
    };
}
pub(crate) use words;

words!(
    /// A valve or opening under the housing of a pressure tank car.
    Fitting {
        /// Liquid valve toward the A end.
        LiquidA = "liquid_a",
        /// Liquid valve toward the B end.
        LiquidB = "liquid_b",
        /// Vapour valve.
        Vapour = "vapour",
        /// Second vapour valve, where the car has one.
        VapourTwo = "vapour_two",
        /// Gauging device (rod or magnetic).
        GaugingDevice = "gauging_device",
        /// Thermometer well.
        ThermometerWell = "thermometer_well",
        /// Sample line.
        SampleLine = "sample_line",
        /// Pressure relief device; looked at, never worked.
        ReliefDevice = "relief_device",
    }
);
words!(
    /// Where a valve stands.
    ValvePosition {
        /// Open, wholly or partly.
        Open = "open",
        /// Shut to its seat.
        Shut = "shut",
    }
);
words!(
    /// How far a plug or cap is in.
    ClosureState {
        /// Out, or loose.
        Open = "open",
        /// Turned in by hand.
        HandTight = "hand_tight",
        /// Tightened with a suitable tool.
        ToolTight = "tool_tight",
    }
);
words!(
    /// What was heard at a fitting after it was shut.
    Heard {
        /// Nothing.
        Quiet = "quiet",
        /// A hiss: something passes.
        Hiss = "hiss",
    }
);
words!(
    /// What a reading measures.
    Measured {
        /// Pressure.
        Pressure = "pressure",
        /// Temperature.
        Temperature = "temperature",
        /// Outage: the empty height above the liquid.
        Outage = "outage",
        /// Liquid level as a share of a receiver's water capacity.
        Level = "level",
        /// Relative density of the liquid at 60 °F.
        RelativeDensity = "relative_density",
        /// A volume on a meter.
        Volume = "volume",
        /// A flow rate.
        Rate = "rate",
    }
);
words!(
    /// Where it was measured.
    Place {
        /// At the car itself, on its own fitting.
        Car = "car",
        /// Low in the car: the bottom of the thermometer well or the shell's underside.
        CarLow = "car_low",
        /// In the liquid line.
        LiquidLine = "liquid_line",
        /// In the vapour line.
        VapourLine = "vapour_line",
        /// At the compressor.
        Compressor = "compressor",
        /// At the shut-off panel.
        ShutOffPanel = "shut_off_panel",
        /// At the fixed storage tank.
        StorageTank = "storage_tank",
        /// At the receiving truck.
        Truck = "truck",
        /// In the air beside the car.
        Air = "air",
    }
);
words!(
    /// What a reading was taken for. Arrival and final readings have one truth; the others are a series.
    Purpose {
        /// As the car was received.
        Arrival = "arrival",
        /// Proving connections tight.
        LeakTest = "leak_test",
        /// While liquid moves.
        Transfer = "transfer",
        /// While vapour is recovered.
        Recovery = "recovery",
        /// Standing still after recovery, watching for a rise.
        HoldTest = "hold_test",
        /// Weighing whether the liquid is out.
        EmptyProof = "empty_proof",
        /// The last one before release.
        Final = "final",
    }
);
words!(
    /// What receives the cargo. It decides which rule set the procedure shows.
    Receiver {
        /// A fixed storage tank.
        FixedTank = "fixed_tank",
        /// One or more cargo tank trucks.
        Truck = "truck",
    }
);
words!(
    /// Where a seal is.
    SealPlace {
        /// Through the pin of the protective housing cover.
        HousingPin = "housing_pin",
        /// Through a lug or bolt of the housing cover.
        HousingLug = "housing_lug",
        /// On the gauging device cover.
        GaugingDevice = "gauging_device",
        /// Somewhere else, said in the remark.
        Elsewhere = "elsewhere",
    }
);
words!(
    /// What happened to a seal.
    SealEvent {
        /// Found on arrival.
        Found = "found",
        /// Put on here.
        Applied = "applied",
        /// Taken off here.
        Removed = "removed",
    }
);
words!(
    /// What kind of seal it is.
    SealKind {
        /// Plastic strap.
        Plastic = "plastic",
        /// Metal strap.
        MetalStrap = "metal_strap",
        /// Wire or cable.
        Cable = "cable",
        /// Bolt.
        Bolt = "bolt",
    }
);
words!(
    /// What a photograph shows.
    PhotoOf {
        /// The stencilled car number.
        CarNumber = "car_number",
        /// A seal in place.
        Seal = "seal",
        /// Threads engaged.
        Threads = "threads",
        /// A defect.
        Defect = "defect",
        /// An instrument's face.
        Instrument = "instrument",
        /// The housing, open or closed.
        Housing = "housing",
        /// The shipping paper.
        Paper = "paper",
        /// Something else.
        Other = "other",
    }
);
words!(
    /// What protects the people and the car while it is worked on.
    Protection {
        /// The blue sign.
        BlueSign = "blue_sign",
        /// The hand brake.
        HandBrake = "hand_brake",
        /// Wheel chocks.
        Chocks = "chocks",
        /// Derail, or switch lined against and locked.
        TrackSecured = "track_secured",
        /// Emergency shut-off, tried.
        EmergencyShutOff = "emergency_shut_off",
        /// Gas detector.
        GasDetector = "gas_detector",
    }
);
words!(
    /// An event of the car's clock.
    ClockEvent {
        /// Notice that the car is coming.
        Notice = "notice",
        /// Could have been placed but for the receiver.
        ConstructivePlacement = "constructive_placement",
        /// Placed.
        ActualPlacement = "actual_placement",
        /// The carrier was told it is released.
        CarrierTold = "carrier_told",
        /// Pulled.
        Pulled = "pulled",
    }
);
words!(
    /// What falls from the sky.
    Precipitation {
        /// Nothing.
        Dry = "dry",
        /// Rain.
        Rain = "rain",
        /// Freezing rain.
        FreezingRain = "freezing_rain",
        /// Snow.
        Snow = "snow",
        /// Frost or rime.
        Frost = "frost",
    }
);
words!(
    /// Evidence that bears on whether liquid is left.
    EmptySign {
        /// The gauge rod stands at its bottom.
        RodAtBottom = "rod_at_bottom",
        /// Only vapour comes at the liquid valve.
        VapourAtLiquidValve = "vapour_at_liquid_valve",
        /// Liquid seen when a liquid closure was broken.
        LiquidAtClosure = "liquid_at_closure",
        /// A frost ring stands on the shell.
        FrostRing = "frost_ring",
    }
);
words!(
    /// Whether somebody is with the connected car.
    Presence {
        /// With the car, or signalled to it by an alarm that reaches them.
        Here = "here",
        /// Gone from it.
        Away = "away",
    }
);
words!(
    /// Test dates marked on a car.
    TestDate {
        /// Tank qualification due.
        TankQualification = "tank_qualification",
        /// Relief device test due.
        ReliefDevice = "relief_device",
        /// Service equipment due.
        ServiceEquipment = "service_equipment",
    }
);
words!(
    /// How a step was left.
    StepOutcome {
        /// Done, nothing odd.
        Done = "done",
        /// Looked at, and something was not right.
        NotRight = "not_right",
        /// Left out; a reason is required.
        Skipped = "skipped",
    }
);
words!(
    /// What an effort or a wear history is of.
    Part {
        /// The valve's spindle.
        Valve = "valve",
        /// The plug or cap.
        Closure = "closure",
    }
);

impl Fitting {
    /// The fittings that carry a transfer line.
    pub const LINES: [Fitting; 4] = [Fitting::LiquidA, Fitting::LiquidB, Fitting::Vapour, Fitting::VapourTwo];

    /// What a pressure car for liquefied gas usually has under its housing and closes with a plug, cap
    /// or cover: two liquid valves, one vapour valve and three small openings (common practice, no
    /// source). What a car really has is said by [`super::Statement::CarFittings`].
    pub const USUAL: [Fitting; 6] = [
        Fitting::LiquidA,
        Fitting::LiquidB,
        Fitting::Vapour,
        Fitting::GaugingDevice,
        Fitting::ThermometerWell,
        Fitting::SampleLine,
    ];

    /// As people call it.
    pub const fn name(self) -> &'static str {
        match self {
            Fitting::LiquidA => "liquid valve A",
            Fitting::LiquidB => "liquid valve B",
            Fitting::Vapour => "vapour valve",
            Fitting::VapourTwo => "second vapour valve",
            Fitting::GaugingDevice => "gauging device",
            Fitting::ThermometerWell => "thermometer well",
            Fitting::SampleLine => "sample line",
            Fitting::ReliefDevice => "relief device",
        }
    }

    /// Whether a transfer line goes on it.
    pub fn is_line(self) -> bool {
        Fitting::LINES.contains(&self)
    }

    /// Whether liquid stands under it while there is liquid in the car.
    pub fn is_liquid(self) -> bool {
        matches!(self, Fitting::LiquidA | Fitting::LiquidB)
    }

    /// Whether the fitting has a valve of its own under its closure.
    pub fn has_valve(self) -> bool {
        matches!(
            self,
            Fitting::LiquidA | Fitting::LiquidB | Fitting::Vapour | Fitting::VapourTwo | Fitting::SampleLine
        )
    }
}

impl Purpose {
    /// Whether readings for this purpose have one truth, rather than being points of a series.
    pub fn has_one_truth(self) -> bool {
        matches!(self, Purpose::Arrival | Purpose::Final)
    }
}

/// A photograph: the digest and length of its exact bytes. The bytes travel apart from the record.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PhotoRef {
    /// SHA-256 of the exact bytes received from the camera.
    pub sha256: Digest,
    /// Their number.
    pub length: u64,
    /// Media type, such as `image/jpeg`.
    pub media: String,
}

/// Latitude, longitude and accuracy as the device gave them.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Position {
    /// Degrees north, −90…90.
    pub latitude: f64,
    /// Degrees east, −180…180.
    pub longitude: f64,
    /// Radius of the 95 % circle in metres.
    pub accuracy_m: f64,
}
