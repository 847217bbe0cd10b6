//! Routings, runs of hose and what they run through.

use glam::DVec3;

use super::{BenchRecord, Extra, Sleeve};
use crate::units::LengthUnit;

/// One routing of the whole bay.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Routing {
    /// Unique among routings.
    pub id: String,
    /// Shown to the user.
    pub name: String,
    /// The hoses.
    pub runs: Vec<Run>,
    /// Gap to keep between hoses; [`Routing::DEFAULT_HOSE_CLEARANCE_MM`] where absent.
    pub hose_clearance_mm: Option<f64>,
    /// Unknown keys.
    pub extra: Extra,
}

impl Routing {
    /// The gap where the routing does not say (common practice: not touching).
    pub const DEFAULT_HOSE_CLEARANCE_MM: f64 = 6.0;
}

/// One hose from port to port. It is cut from end A (`from`) to end B (`to`).
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// Unique in its routing.
    pub id: String,
    /// Shown to the user.
    pub name: String,
    /// Id of a hose in `stock` or the built-in catalogue.
    pub hose: String,
    /// Which size of it.
    pub dash: u32,
    /// End A.
    pub from: RunEnd,
    /// End B.
    pub to: RunEnd,
    /// Corners and clamps, from A to B.
    pub via: Vec<Via>,
    /// Centre-line radius wanted at every corner; the hose's limit where absent.
    pub radius_mm: Option<f64>,
    /// Slack in per cent of the centre line; [`Run::DEFAULT_SLACK_PCT`] where absent.
    pub slack_pct: Option<f64>,
    /// Slack of each free length from A to B, one more than there are clamps; its sum takes the place
    /// of `slack_pct`. Where absent the slack goes where it can (contract §5).
    pub slack_mm: Option<Vec<f64>>,
    /// Outside diameter measured on the real hose; overrides the catalogue.
    pub outside_mm: Option<f64>,
    /// Whether the liner of the real hose conducts static charge; overrides the catalogue.
    pub conductive_liner: Option<bool>,
    /// Length measured on the bench with the real hose.
    pub dry_fit_mm: Option<f64>,
    /// Sleeves that it wears.
    pub sleeves: Vec<Sleeve>,
    /// What was done on the bench.
    pub bench: BenchRecord,
    /// What it carries.
    pub service: Service,
    /// Unknown keys.
    pub extra: Extra,
}

impl Run {
    /// Slack where the run does not say (contract §1; the low end of FAA AMT Handbook – General
    /// p. 7-19, 5 to 8 %).
    pub const DEFAULT_SLACK_PCT: f64 = 5.0;

    /// Its name; its id where it has none.
    pub fn shown_name(&self) -> &str {
        super::name_or(&self.name, &self.id)
    }

    /// The slack in force on a drawn centre line of this length, mm.
    pub fn slack_in_force_mm(&self, centreline_mm: f64) -> f64 {
        match &self.slack_mm {
            Some(each) => each.iter().sum(),
            None => self.slack_pct.unwrap_or(Self::DEFAULT_SLACK_PCT) / 100.0 * centreline_mm,
        }
    }

    /// A corner or a clamp by its kind and number from end A: `corner 2`.
    pub fn via_name(&self, place: usize) -> String {
        let is_clamp = |via: &Via| matches!(via, Via::Clamp(_));
        let kind = self.via.get(place).is_some_and(is_clamp);
        let number = self.via.iter().take(place + 1).filter(|via| is_clamp(via) == kind).count();
        format!("{} {number}", if kind { "clamp" } else { "corner" })
    }

    /// Its free lengths, also those that two clamps side by side leave nothing of.
    pub fn free_lengths(&self) -> usize {
        self.clamps_before(self.via.len()) + 1
    }

    /// The clamps before this place in `via`.
    fn clamps_before(&self, place: usize) -> usize {
        let clamps = self.via.iter().take(place).filter(|via| matches!(via, Via::Clamp(_)));
        clamps.count()
    }

    /// Puts a corner or a clamp in; a clamp halves the slack that was given to its free length.
    pub fn insert_via(&mut self, place: usize, via: Via) {
        let place = place.min(self.via.len());
        let length = self.clamps_before(place);
        if let (Via::Clamp(_), Some(each)) = (&via, &mut self.slack_mm)
            && let Some(slack) = each.get_mut(length)
        {
            *slack /= 2.0;
            let half = *slack;
            each.insert(length, half);
        }
        self.via.insert(place, via);
    }

    /// Takes a corner or a clamp out; the slack given on both sides of a clamp is put together.
    pub fn remove_via(&mut self, place: usize) -> Via {
        let length = self.clamps_before(place);
        let via = self.via.remove(place);
        if let (Via::Clamp(_), Some(each)) = (&via, &mut self.slack_mm)
            && length + 1 < each.len()
        {
            let after = each.remove(length + 1);
            each[length] += after;
        }
        via
    }

    /// The end on one side.
    pub fn end(&self, side: Side) -> &RunEnd {
        match side {
            Side::A => &self.from,
            Side::B => &self.to,
        }
    }
}

/// Which end of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// `from`
    A,
    /// `to`
    B,
}

impl Side {
    /// `"A"` or `"B"`, as on the sheet.
    pub fn letter(self) -> &'static str {
        match self {
            Self::A => "A",
            Self::B => "B",
        }
    }
}

/// One end of a run: the port, the end fitting and how it is turned.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RunEnd {
    /// Id of the port.
    pub port: String,
    /// Id of an end in `stock` or the built-in catalogue; may be left out where all three of
    /// `along_mm`, `across_mm` and `socket_mm` are measured.
    pub end: Option<String>,
    /// 0 straight, 45, 90 … 180.
    pub angle_deg: f64,
    /// Turn of the elbow about the port's axis (contract §2).
    pub clock_deg: f64,
    /// Distance from the cut end to the first corner; found by the engine where absent.
    pub straight_mm: Option<f64>,
    /// Seat to cut end along the port's axis, measured on the bench.
    pub along_mm: Option<f64>,
    /// Seat to cut end across the port's axis, measured on the bench.
    pub across_mm: Option<f64>,
    /// Length of hose gripped in the socket, measured on the bench.
    pub socket_mm: Option<f64>,
    /// Unknown keys.
    pub extra: Extra,
}

impl RunEnd {
    /// Whether every dimension of the end was measured on the bench.
    pub fn is_measured(&self) -> bool {
        self.along_mm.is_some() && self.across_mm.is_some() && self.socket_mm.is_some()
    }
}

/// What a run goes through between its ends.
#[derive(Debug, Clone, PartialEq)]
pub enum Via {
    /// A bend.
    Corner(Corner),
    /// A place where the hose is held.
    Clamp(Clamp),
}

impl Via {
    /// The place of the corner, or the middle of the clamp.
    pub fn at(&self) -> DVec3 {
        match self {
            Self::Corner(c) => c.at,
            Self::Clamp(c) => c.at,
        }
    }

    /// The same, to be moved.
    pub fn at_mut(&mut self) -> &mut DVec3 {
        match self {
            Self::Corner(c) => &mut c.at,
            Self::Clamp(c) => &mut c.at,
        }
    }

    /// Unknown keys.
    pub fn extra(&self) -> &Extra {
        match self {
            Self::Corner(c) => &c.extra,
            Self::Clamp(c) => &c.extra,
        }
    }
}

/// A corner of the polyline that the hose is bent round.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Corner {
    /// Where the two straights would meet.
    pub at: DVec3,
    /// Centre-line radius wanted here; the run's where absent.
    pub radius_mm: Option<f64>,
    /// Unknown keys.
    pub extra: Extra,
}

/// A clamp: the hose is straight through it.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Clamp {
    /// Its middle.
    pub at: DVec3,
    /// The way the hose goes through, from A to B; non-zero, not of unit length.
    pub along: DVec3,
    /// The whole length it grips; two outside diameters of the hose where absent.
    pub grip_mm: Option<f64>,
    /// Distance from its middle to the corner on either side; found by the engine where absent.
    pub straight_mm: Option<f64>,
    /// Unknown keys.
    pub extra: Extra,
}

/// What a hose carries. What is absent is left unchecked.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Service {
    /// The fluid.
    pub fluid: Option<Fluid>,
    /// Flow; below 0 it goes from B to A.
    pub flow_lpm: Option<f64>,
    /// Working pressure, gauge.
    pub pressure_bar: Option<f64>,
    /// Working temperature.
    pub temperature_c: Option<f64>,
    /// Density of the builder's own fluid; in force together with `viscosity_mm2_s` only.
    pub density_kg_m3: Option<f64>,
    /// Kinematic viscosity of the builder's own fluid at its working temperature.
    pub viscosity_mm2_s: Option<f64>,
    /// Whether the hose flexes in service.
    pub flexing: Option<bool>,
    /// Whether it drains by gravity, so that it has to fall all along.
    pub drains: Option<bool>,
    /// Unknown keys.
    pub extra: Extra,
}

impl Service {
    /// Above this, bar, a screw-on or push-on end in hydraulics is warned of, and oil counts as
    /// hydraulics: 1000 psi, the program's own caution; no standard that was read names a limit.
    pub const HIGH_PRESSURE_BAR: f64 = 70.0;

    /// Whether it is under suction: a vacuum, or a pressure below that of the air.
    pub fn sucks(&self) -> bool {
        self.fluid == Some(Fluid::Vacuum) || self.pressure_bar.is_some_and(|bar| bar < 0.0)
    }

    /// Whether its pressure is above [`Self::HIGH_PRESSURE_BAR`].
    pub fn is_high_pressure(&self) -> bool {
        self.pressure_bar.is_some_and(|bar| bar > Self::HIGH_PRESSURE_BAR)
    }

    /// Whether it does hydraulic work: steering and hydraulic fluids always, other oils and brake fluid
    /// (clutches) under high pressure only.
    pub fn is_hydraulic(&self) -> bool {
        let Some(fluid) = &self.fluid else { return false };
        fluid.is_made_for_hydraulics() || (fluid.may_work_hydraulics() && self.is_high_pressure())
    }
}

/// The fluids the checks know, or the user's own word.
#[derive(Debug, Clone, PartialEq, Eq)]
#[allow(missing_docs, reason = "the names are the file's own words")]
pub enum Fluid {
    Petrol,
    PetrolE10,
    E85,
    Methanol,
    Diesel,
    EngineOil,
    GearOil,
    Atf,
    PowerSteering,
    BrakeFluid,
    Coolant,
    Water,
    Air,
    Vacuum,
    Refrigerant,
    HydraulicVg32,
    HydraulicVg46,
    HydraulicVg68,
    Other(String),
}

impl Fluid {
    /// The known fluids with the words of the file.
    pub const KNOWN: [(Self, &'static str); 18] = [
        (Self::Petrol, "petrol"),
        (Self::PetrolE10, "petrol-e10"),
        (Self::E85, "e85"),
        (Self::Methanol, "methanol"),
        (Self::Diesel, "diesel"),
        (Self::EngineOil, "engine-oil"),
        (Self::GearOil, "gear-oil"),
        (Self::Atf, "atf"),
        (Self::PowerSteering, "power-steering"),
        (Self::BrakeFluid, "brake-fluid"),
        (Self::Coolant, "coolant"),
        (Self::Water, "water"),
        (Self::Air, "air"),
        (Self::Vacuum, "vacuum"),
        (Self::Refrigerant, "refrigerant"),
        (Self::HydraulicVg32, "hydraulic-vg32"),
        (Self::HydraulicVg46, "hydraulic-vg46"),
        (Self::HydraulicVg68, "hydraulic-vg68"),
    ];

    /// The word of the file.
    pub fn word(&self) -> &str {
        if let Self::Other(word) = self {
            return word;
        }
        Self::KNOWN.iter().find(|(fluid, _)| fluid == self).map_or("", |(_, word)| word)
    }

    /// Its name as people read it.
    pub fn name(&self) -> String {
        match self {
            Self::PetrolE10 => "petrol (E10)".to_owned(),
            Self::E85 => "E85".to_owned(),
            Self::Atf => "ATF".to_owned(),
            Self::PowerSteering => "power-steering fluid".to_owned(),
            Self::HydraulicVg32 => "hydraulic oil VG 32".to_owned(),
            Self::HydraulicVg46 => "hydraulic oil VG 46".to_owned(),
            Self::HydraulicVg68 => "hydraulic oil VG 68".to_owned(),
            Self::Other(word) => word.clone(),
            known => known.word().replace('-', " "),
        }
    }

    /// Its name for users in this unit of length: petrol is gasoline to users in inches.
    pub fn name_in(&self, units: LengthUnit) -> String {
        let name = self.name();
        match (self, units) {
            (Self::Petrol | Self::PetrolE10, LengthUnit::Inch) => {
                name.replacen("petrol", "gasoline", 1)
            }
            _ => name,
        }
    }

    /// From the word of the file; a word that is not known is kept as the user's own.
    pub fn from_word(word: &str) -> Self {
        Self::KNOWN
            .iter()
            .find(|(_, known)| *known == word)
            .map_or_else(|| Self::Other(word.to_owned()), |(fluid, _)| fluid.clone())
    }

    /// Whether it is there to do hydraulic work: by its kind, or by the word it is called.
    fn is_made_for_hydraulics(&self) -> bool {
        let word = self.word().to_ascii_lowercase();
        *self == Self::PowerSteering || word.contains("hydraulic") || word.starts_with("iso-vg")
    }

    /// Whether it may do hydraulic work.
    fn may_work_hydraulics(&self) -> bool {
        matches!(self, Self::BrakeFluid | Self::EngineOil | Self::GearOil | Self::Atf)
    }

    /// Whether it burns: fuel of any kind.
    pub fn is_fuel(&self) -> bool {
        matches!(self, Self::Petrol | Self::PetrolE10 | Self::E85 | Self::Methanol | Self::Diesel)
    }
}
