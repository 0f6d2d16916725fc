//! The words that statements consist of: fittings, positions, places, purposes.
//!
//! Every enum here is wire format: variants may be added but not renamed or removed.

use serde::{Deserialize, Serialize};
use std::fmt;

pub use super::carried_facts::{CoverPart, Feel, PartState, PlugState};
pub use super::leaving_facts::{CarLoad, LeavesAs, LeftCondition};
pub use super::transfer_facts::{CarEnd, GaugingKind, TankMoment};
pub use super::trouble_facts::{Called, Evacuation, IncidentSource, Injury, LeakAt};
use crate::ids::Digest;

macro_rules! words {
    ($(#[$doc:meta])* $name:ident as $family:literal { $($(#[$vdoc:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
        #[cfg_attr(test, derive(ts_rs::TS))]
        #[serde(rename_all = "snake_case")]
        pub enum $name { $($(#[$vdoc])* #[serde(rename = $word)] $variant),+ }
        impl $name {
            /// Every variant, in order.
            pub const ALL: &'static [$name] = &[$($name::$variant),+];
            /// Returns the word as stored and as used in commands.
            pub const fn word(self) -> &'static str { match self { $($name::$variant => $word),+ } }
            /// Returns the word for people, in the family of messages that this vocabulary has in the catalogues.
            pub fn term(self) -> crate::Message { crate::Message::term($family, self.word()) }
            /// Returns the word with spaces, for people.
            pub fn spoken(self) -> String { self.word().replace('_', " ") }
            /// Parses the word.
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
    Fitting as "fitting" {
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
        /// Pressure relief device; it is inspected but never operated.
        ReliefDevice = "relief_device",
    }
);
words!(
    /// The position of a valve.
    ValvePosition as "valve_position" {
        /// Open, wholly or partly.
        Open = "open",
        /// Closed onto its seat.
        Shut = "shut",
    }
);
words!(
    /// The state of a plug or cap.
    ClosureState as "closure" {
        /// Removed or loose.
        Open = "open",
        /// Turned in by hand.
        HandTight = "hand_tight",
        /// Tightened with a suitable tool.
        ToolTight = "tool_tight",
    }
);
words!(
    /// What was heard at a fitting after it was shut.
    Heard as "heard" {
        /// No sound.
        Quiet = "quiet",
        /// A hiss, which means that the fitting leaks.
        Hiss = "hiss",
    }
);
words!(
    /// The quantity that a reading measures.
    Measured as "measured" {
        /// Pressure.
        Pressure = "pressure",
        /// Temperature.
        Temperature = "temperature",
        /// The outage: the height of the empty space above the liquid.
        Outage = "outage",
        /// The liquid level as a share of a receiver's water capacity.
        Level = "level",
        /// Relative density of the liquid at 60 °F.
        RelativeDensity = "relative_density",
        /// A volume shown by a meter.
        Volume = "volume",
        /// A flow rate.
        Rate = "rate",
    }
);
words!(
    /// The place of a measurement.
    Place as "place" {
        /// At the car, on its own fitting.
        Car = "car",
        /// At the bottom of the car: the end of the thermometer well or the underside of the shell.
        CarLow = "car_low",
        /// In the liquid line.
        LiquidLine = "liquid_line",
        /// In the vapour line.
        VapourLine = "vapour_line",
        /// At the compressor.
        Compressor = "compressor",
        /// On the suction side of the compressor.
        CompressorSuction = "compressor_suction",
        /// On the discharge side of the compressor.
        CompressorDischarge = "compressor_discharge",
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
    /// The purpose of a reading. Arrival and final readings have a single true value; the others form a
    /// series.
    Purpose as "purpose" {
        /// When the car was received.
        Arrival = "arrival",
        /// Proving that connections are tight.
        LeakTest = "leak_test",
        /// During the transfer of liquid.
        Transfer = "transfer",
        /// During the recovery of vapour.
        Recovery = "recovery",
        /// After recovery, to detect a rise in pressure.
        HoldTest = "hold_test",
        /// As evidence that the liquid is out.
        EmptyProof = "empty_proof",
        /// The last reading before release.
        Final = "final",
    }
);
words!(
    /// What receives the cargo. It decides which rules the procedure shows.
    Receiver as "receiver" {
        /// A fixed storage tank.
        FixedTank = "fixed_tank",
        /// One or more cargo tank trucks.
        Truck = "truck",
    }
);
words!(
    /// The place of a seal.
    SealPlace as "seal_place" {
        /// Through the pin of the protective housing cover.
        HousingPin = "housing_pin",
        /// Through a lug or bolt of the housing cover.
        HousingLug = "housing_lug",
        /// On the gauging device cover.
        GaugingDevice = "gauging_device",
        /// Another place, described in the remark.
        Elsewhere = "elsewhere",
    }
);
words!(
    /// An event in the life of a seal.
    SealEvent as "seal_event" {
        /// Found on arrival.
        Found = "found",
        /// Applied here.
        Applied = "applied",
        /// Removed here.
        Removed = "removed",
    }
);
words!(
    /// The kind of a seal.
    SealKind as "seal_kind" {
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
    /// The object that a photograph shows.
    PhotoOf as "photo_of" {
        /// The stencilled car number.
        CarNumber = "car_number",
        /// A seal in place.
        Seal = "seal",
        /// Threads engaged.
        Threads = "threads",
        /// A defect.
        Defect = "defect",
        /// The face of an instrument.
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
    /// A protection of the people and the car during work.
    Protection as "protection" {
        /// The blue sign.
        BlueSign = "blue_sign",
        /// The hand brake.
        HandBrake = "hand_brake",
        /// Wheel chocks.
        Chocks = "chocks",
        /// A derail, or a switch lined against the track and locked.
        TrackSecured = "track_secured",
        /// The emergency shut-off, tested.
        EmergencyShutOff = "emergency_shut_off",
        /// Gas detector.
        GasDetector = "gas_detector",
    }
);
words!(
    /// An event that matters for the car's demurrage clock.
    ClockEvent as "clock_event" {
        /// Notice that the car is on its way.
        Notice = "notice",
        /// The car could have been placed but for the receiver.
        ConstructivePlacement = "constructive_placement",
        /// The receiver ordered the car to be brought in.
        OrderedIn = "ordered_in",
        /// The car was placed.
        ActualPlacement = "actual_placement",
        /// The carrier was told of the release.
        CarrierTold = "carrier_told",
        /// The car was pulled.
        Pulled = "pulled",
    }
);
words!(
    /// The kind of precipitation.
    Precipitation as "precipitation" {
        /// No precipitation.
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
    /// An observation that bears on whether liquid remains.
    EmptySign as "empty_sign" {
        /// The gauge rod is at its lowest position.
        RodAtBottom = "rod_at_bottom",
        /// Only vapour comes out of the liquid valve.
        VapourAtLiquidValve = "vapour_at_liquid_valve",
        /// Liquid was seen when a liquid closure was opened.
        LiquidAtClosure = "liquid_at_closure",
        /// A ring of frost is visible on the shell.
        FrostRing = "frost_ring",
    }
);
words!(
    /// Whether somebody attends the connected car.
    Presence as "presence" {
        /// Somebody is with the car or will be reached by its alarm.
        Here = "here",
        /// Nobody is with the car.
        Away = "away",
    }
);
words!(
    /// The grade of a liquefied petroleum gas.
    ProductGrade as "calc_grade" {
        /// Special-duty propane, HD-5.
        Hd5Propane = "hd5_propane",
        /// Commercial propane.
        CommercialPropane = "commercial_propane",
        /// Commercial butane.
        CommercialButane = "commercial_butane",
        /// A mix of butane and propane.
        ButanePropane = "butane_propane",
        /// Isobutane.
        Isobutane = "isobutane",
        /// Propylene.
        Propylene = "propylene",
    }
);
words!(
    /// How a shipper measured what is billed.
    BilledBy as "billed_by" {
        /// By outage and the owner's table: the liquid alone.
        Table = "table",
        /// By a liquid meter: the liquid alone.
        Meter = "meter",
        /// By scale: the difference of two weights.
        Scale = "scale",
    }
);
words!(
    /// The insulation of a car's tank, by which its filling limits are chosen.
    Insulation as "insulation" {
        /// Not insulated.
        None = "none",
        /// A thermal protection system with a metal jacket.
        ThermalProtection = "thermal_protection",
        /// An insulation system with a metal jacket.
        Insulated = "insulated",
    }
);
words!(
    /// A test date marked on a car.
    TestDate as "test_date" {
        /// Tank qualification due.
        TankQualification = "tank_qualification",
        /// Relief device test due.
        ReliefDevice = "relief_device",
        /// Service equipment due.
        ServiceEquipment = "service_equipment",
    }
);
words!(
    /// The outcome of a step.
    StepOutcome as "step_outcome" {
        /// The step was done and nothing unusual was found.
        Done = "done",
        /// The step was done and something was not right.
        NotRight = "not_right",
        /// The step was skipped; a reason is required.
        Skipped = "skipped",
    }
);
words!(
    /// The part that a torque or a wear history belongs to.
    Part as "part" {
        /// The valve's stem.
        Valve = "valve",
        /// The plug or cap.
        Closure = "closure",
    }
);

words!(
    /// A moment at which a person signs that the stay may go on.
    Gate as "gate" {
        /// Fit to unload: before the first closure of a line comes out.
        Unload = "unload",
        /// Fit to release: before the car may go.
        Release = "release",
    }
);

impl Fitting {
    /// The fittings that carry a transfer line.
    pub const LINES: [Fitting; 4] = [Fitting::LiquidA, Fitting::LiquidB, Fitting::Vapour, Fitting::VapourTwo];

    /// The fittings that a pressure car for liquefied gas usually has under its housing and that are closed
    /// with a plug, cap or cover: two liquid valves, one vapour valve and three small openings (common
    /// practice, no source). [`super::Statement::CarFittings`] states what a particular car has.
    pub const USUAL: [Fitting; 6] = [
        Fitting::LiquidA,
        Fitting::LiquidB,
        Fitting::Vapour,
        Fitting::GaugingDevice,
        Fitting::ThermometerWell,
        Fitting::SampleLine,
    ];

    /// Returns the usual name.
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

    /// Returns true if a transfer line can be connected to the fitting.
    pub fn is_line(self) -> bool {
        Fitting::LINES.contains(&self)
    }

    /// Returns true if liquid stands at the fitting as long as there is liquid in the car.
    pub fn is_liquid(self) -> bool {
        matches!(self, Fitting::LiquidA | Fitting::LiquidB)
    }

    /// Returns true if the fitting has a valve of its own under its closure.
    pub fn has_valve(self) -> bool {
        matches!(
            self,
            Fitting::LiquidA | Fitting::LiquidB | Fitting::Vapour | Fitting::VapourTwo | Fitting::SampleLine
        )
    }
}

impl Purpose {
    /// Returns true if readings for this purpose have a single true value instead of forming a series.
    pub fn has_one_truth(self) -> bool {
        matches!(self, Purpose::Arrival | Purpose::Final)
    }
}

/// A photograph by the digest and length of its exact bytes, which are transferred apart from the record.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PhotoRef {
    /// The SHA-256 of the exact bytes received from the camera.
    pub sha256: Digest,
    /// The number of bytes.
    pub length: u64,
    /// The media type, such as `image/jpeg`.
    pub media: String,
}

/// A position as the device reported it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Position {
    /// The latitude in degrees north, −90 to 90.
    pub latitude: f64,
    /// The longitude in degrees east, −180 to 180.
    pub longitude: f64,
    /// The radius of the 95 % circle in metres.
    pub accuracy_m: f64,
}
