//! Hoses, ends and lengths, as the catalogue and the bay's `stock` list them.

use super::{Attachment, Extra, Source};
use crate::units::EPS_MM;

/// What a bay adds to, or overrides in, the built-in catalogue.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Stock {
    /// Hoses.
    pub hoses: Vec<HoseKind>,
    /// Ends.
    pub ends: Vec<EndKind>,
    /// Hose that can be bought or is on the shelf.
    pub lengths: Vec<ShelfLength>,
    /// Clamps that can be bought.
    pub clamps: Vec<ClampSize>,
    /// Unknown keys.
    pub extra: Extra,
}

/// How a hose or an end is built; the words are open.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Construction {
    /// PTFE liner, one metal braid.
    PtfeBraid,
    /// Rubber liner, wire or fabric braid.
    RubberBraid,
    /// Rubber, pushed on to a barb.
    PushOn,
    /// The user's own word.
    Other(String),
}

impl Construction {
    /// The word of the file.
    pub fn word(&self) -> &str {
        match self {
            Self::PtfeBraid => "ptfe-braid",
            Self::RubberBraid => "rubber-braid",
            Self::PushOn => "push-on",
            Self::Other(word) => word,
        }
    }

    /// In words for people.
    pub fn shown(&self) -> &str {
        match self {
            Self::PtfeBraid => "PTFE, braided",
            Self::RubberBraid => "rubber, braided",
            Self::PushOn | Self::Other(_) => self.word(),
        }
    }

    /// From the word of the file.
    pub fn from_word(word: &str) -> Self {
        match word {
            "ptfe-braid" => Self::PtfeBraid,
            "rubber-braid" => Self::RubberBraid,
            "push-on" => Self::PushOn,
            other => Self::Other(other.to_owned()),
        }
    }
}

/// One kind of hose, in several sizes.
#[derive(Debug, Clone, PartialEq)]
pub struct HoseKind {
    /// Unique; one of the bay's stock overrides a built-in one of the same id whole.
    pub id: String,
    /// Shown to the user.
    pub name: String,
    /// Its manufacturer, where it has one.
    pub maker: Option<String>,
    /// How it is built.
    pub construction: Construction,
    /// Liner material as a word of the fluids table ("PTFE", "NBR", …); from the construction where
    /// absent.
    pub liner: Option<String>,
    /// Whether the liner carries static away; unknown where absent.
    pub conductive_liner: Option<bool>,
    /// Least and greatest working temperature.
    pub temperature_c: Option<[f64; 2]>,
    /// Change of length under pressure, shortest and longest, per cent.
    pub length_change_pct: Option<[f64; 2]>,
    /// True where the bend radius is given to the centre line, false where to the inside of the
    /// bend; inside where absent.
    pub bend_to_centre: Option<bool>,
    /// Its sizes.
    pub sizes: Vec<HoseSize>,
    /// Where the figures come from.
    pub sources: HoseSources,
    /// Unknown keys.
    pub extra: Extra,
}

impl HoseKind {
    /// The size of this dash number.
    pub fn size(&self, dash: u32) -> Option<&HoseSize> {
        self.sizes.iter().find(|s| s.dash == dash)
    }

    /// Least and greatest working temperature of a size, °C.
    pub fn temperature_of(&self, dash: u32) -> Option<[f64; 2]> {
        self.size(dash).and_then(|size| size.temperature_c).or(self.temperature_c)
    }
}

/// Where each column of a hose's table comes from.
#[derive(Debug, Clone, PartialEq)]
pub struct HoseSources {
    /// Bore.
    pub bore: Source,
    /// Outside diameter.
    pub outside: Source,
    /// Bend radius.
    pub bend_radius: Source,
    /// Working pressure.
    pub pressure: Source,
    /// Burst pressure.
    pub burst: Source,
    /// Temperature range.
    pub temperature: Source,
    /// Change of length under pressure.
    pub length_change: Source,
}

impl HoseSources {
    /// The same source for every column.
    pub fn all(source: Source) -> Self {
        Self {
            bore: source.clone(),
            outside: source.clone(),
            bend_radius: source.clone(),
            pressure: source.clone(),
            burst: source.clone(),
            temperature: source.clone(),
            length_change: source,
        }
    }
}

/// One size of a hose.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct HoseSize {
    /// Dash number: a name, not a measure (handbook §1).
    pub dash: u32,
    /// Bore.
    pub bore_mm: Option<f64>,
    /// Outside diameter; unknown for some built-in hoses: then the run has to give it.
    pub outside_mm: Option<f64>,
    /// Least bend radius, measured as `bend_to_centre` of the kind says.
    pub bend_radius_mm: f64,
    /// Greatest working pressure.
    pub max_pressure_bar: Option<f64>,
    /// Burst pressure.
    pub burst_bar: Option<f64>,
    /// Proof pressure.
    pub proof_bar: Option<f64>,
    /// By how much it swells under [`Self::expansion_at_bar`], cm³ a metre; in force with that only.
    pub expansion_ml_per_m: Option<f64>,
    /// The pressure at which the manufacturer measured [`Self::expansion_ml_per_m`].
    pub expansion_at_bar: Option<f64>,
    /// Temperature range where this size differs from the kind's.
    pub temperature_c: Option<[f64; 2]>,
    /// Mass.
    pub mass_kg_per_m: Option<f64>,
    /// Price, in the builder's own money.
    pub price_per_m: Option<f64>,
    /// Unknown keys.
    pub extra: Extra,
}

/// One kind of end fitting, in several sizes and angles.
#[derive(Debug, Clone, PartialEq)]
pub struct EndKind {
    /// Unique; one of the bay's stock overrides a built-in one of the same id whole.
    pub id: String,
    /// Shown to the user.
    pub name: String,
    /// Its manufacturer, where it has one.
    pub maker: Option<String>,
    /// The construction of hose it grips.
    pub for_construction: Option<Construction>,
    /// How it holds the hose; see [`Attachment::of`] where absent.
    pub attachment: Option<Attachment>,
    /// Its sizes.
    pub sizes: Vec<EndSize>,
    /// Where `along` (the set-back of a straight end) comes from.
    pub source_straight: Source,
    /// Where the dimensions of an elbow come from.
    pub source_elbow: Source,
    /// Where the socket length comes from.
    pub source_socket: Source,
    /// Unknown keys.
    pub extra: Extra,
}

impl EndKind {
    /// The size of this dash number and angle.
    pub fn size(&self, dash: u32, angle_deg: f64) -> Option<&EndSize> {
        self.sizes.iter().find(|s| s.dash == dash && (s.angle_deg - angle_deg).abs() < 1e-6)
    }
}

/// One size and angle of an end.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct EndSize {
    /// Dash number.
    pub dash: u32,
    /// 0 straight … 180.
    pub angle_deg: f64,
    /// Seat to cut end along the port's axis.
    pub along_mm: f64,
    /// Seat to cut end across the port's axis.
    pub across_mm: f64,
    /// Hose gripped in the socket.
    pub socket_mm: f64,
    /// Its swivel nut across flats, where given.
    pub nut_hex_mm: Option<f64>,
    /// How far the hose goes into a ferrule that is pressed on, by its manufacturer's chart.
    pub insertion_mm: Option<f64>,
    /// The diameter of the ferrule after pressing, by its manufacturer's chart.
    pub crimp_diameter_mm: Option<f64>,
    /// Whether along, across and socket were measured on the ends in stock.
    pub measured: Option<bool>,
    /// The day they were measured, as it was written.
    pub measured_on: String,
    /// Greatest working pressure, where given.
    pub max_pressure_bar: Option<f64>,
    /// Price, in the builder's own money.
    pub price: Option<f64>,
    /// Mass.
    pub mass_kg: Option<f64>,
    /// Unknown keys.
    pub extra: Extra,
}

/// Hose of one length that can be bought or is on the shelf.
#[derive(Debug, Clone, PartialEq)]
pub struct ShelfLength {
    /// Id of the hose.
    pub hose: String,
    /// Its size.
    pub dash: u32,
    /// Length.
    pub length_mm: f64,
    /// How many; no end of them where absent.
    pub count: Option<u32>,
    /// Price of one.
    pub price: Option<f64>,
    /// Unknown keys.
    pub extra: Extra,
}

/// A clamp, for hoses of some outside diameters.
#[derive(Debug, Clone, PartialEq)]
pub struct ClampSize {
    /// Shown to the user; may be empty.
    pub name: String,
    /// Least and greatest outside diameter of the hose that it holds.
    pub outside_mm: [f64; 2],
    /// Price of one, in the builder's own money.
    pub price: Option<f64>,
    /// Unknown keys.
    pub extra: Extra,
}

impl Stock {
    /// The clamp for a hose of this outside diameter: of those that hold it the cheapest, of those alike
    /// the first; one of no known price only where nothing else holds it.
    pub fn clamp_for(&self, outside_mm: f64) -> Option<&ClampSize> {
        let holds = |clamp: &&ClampSize| {
            let [least, greatest] = clamp.outside_mm;
            (least - EPS_MM..=greatest + EPS_MM).contains(&outside_mm)
        };
        let price = |clamp: &ClampSize| clamp.price.unwrap_or(f64::INFINITY);
        self.clamps.iter().filter(holds).min_by(|a, b| price(a).total_cmp(&price(b)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn clamp(outside_mm: [f64; 2], price: Option<f64>) -> ClampSize {
        ClampSize { name: String::new(), outside_mm, price, extra: Extra::default() }
    }

    #[test]
    fn a_clamp_is_the_cheapest_that_holds_the_hose() {
        let clamps = vec![
            clamp([8.0, 11.0], Some(1.0)),
            clamp([11.0, 14.0], None),
            clamp([12.0, 15.0], Some(3.0)),
            clamp([10.0, 16.0], Some(2.5)),
        ];
        let stock = Stock { clamps, ..Stock::default() };
        let price = |outside_mm| stock.clamp_for(outside_mm).map(|clamp| clamp.price);
        assert_eq!(price(8.0), Some(Some(1.0)));
        assert_eq!(price(12.7), Some(Some(2.5)));
        assert_eq!(price(16.1), None);
    }
}
