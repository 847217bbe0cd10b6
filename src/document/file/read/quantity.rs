//! Numbers: each with its unit and its range.

use super::super::json::Json;
use super::cursor::At;
use super::kind::Kind;

/// A number with its unit and range.
#[derive(Clone, Copy)]
pub(super) struct Quantity {
    unit: &'static str,
    range: Range,
}

#[derive(Clone, Copy)]
enum Range {
    Any,
    NotNegative,
    Positive,
    HalfTurn,
    /// Short of lying on its side.
    Tilt,
    Share,
    Slack,
    /// Anywhere in a bay.
    InBay,
    /// No longer than a bay, and not negative; above zero where so said.
    Span {
        positive: bool,
    },
    /// Warmer than nothing can be cold.
    Temperature,
}

/// No number of a bay file is larger: the squares of much larger ones leave the numbers of the
/// machine.
pub(super) const MAX_SIZE: f64 = 1e9;

/// A bay has a size: nothing in it is farther from its origin, and no length in it is longer, mm.
/// It is 100 m, more than any engine room: beyond it a slip of the fingers is certain.
pub(in super::super) const MAX_BAY_MM: f64 = 1e5;

const MM: &str = "millimetres";

impl Quantity {
    /// A coordinate.
    pub(super) const MM: Self = Self { unit: MM, range: Range::InBay };
    /// A length that may be nothing.
    pub(super) const LENGTH: Self = Self { unit: MM, range: Range::Span { positive: false } };
    /// A length that may not be nothing.
    pub(super) const SIZE: Self = Self { unit: MM, range: Range::Span { positive: true } };
    /// Of hose on a reel, which may be longer than any bay.
    pub(super) const REEL: Self = Self { unit: MM, range: Range::Positive };
    /// How far a fitting is bent.
    pub(super) const HALF_TURN: Self = Self { unit: "degrees", range: Range::HalfTurn };
    /// How far a vehicle or boat tilts.
    pub(super) const TILT: Self = Self { unit: "degrees", range: Range::Tilt };
    /// A turn.
    pub(super) const DEGREES: Self = Self::of("degrees");
    /// A share that may be negative.
    pub(super) const PERCENT: Self = Self::of("per cent");
    /// A share.
    pub(super) const SLACK: Self = Self { unit: "per cent", range: Range::Slack };
    pub(super) const BAR: Self = Self::of("bar");
    pub(super) const CELSIUS: Self = Self::of("degrees Celsius");
    pub(super) const LPM: Self = Self::of("litres per minute");
    /// A density.
    pub(super) const KG_PER_M3: Self =
        Self { unit: "kilograms per cubic metre", range: Range::Positive };
    /// A kinematic viscosity.
    pub(super) const MM2_PER_S: Self =
        Self { unit: "square millimetres per second", range: Range::Positive };
    /// How much a hose swells.
    pub(super) const ML_PER_M: Self =
        Self { unit: "millilitres per metre", range: Range::NotNegative };
    /// A pressure that may not be nothing.
    pub(super) const PRESSURE: Self = Self { unit: "bar", range: Range::Positive };
    pub(super) const KG: Self = Self::of("kilograms");
    pub(super) const KG_PER_M: Self = Self::of("kilograms per metre");
    pub(super) const PRICE: Self = Self { unit: "your own money", range: Range::NotNegative };
    pub(super) const PRICE_PER_M: Self =
        Self { unit: "your own money per metre", range: Range::NotNegative };
    /// How strongly something is drawn.
    pub(super) const SHARE: Self = Self { unit: "1: full strength", range: Range::Share };
    pub(super) const PIXELS: Self = Self::of("pixels");
    pub(super) const SIZE_PX: Self = Self { unit: "pixels", range: Range::Positive };
    pub(super) const MM_PER_PIXEL: Self =
        Self { unit: "millimetres per pixel", range: Range::Positive };
    pub(super) const MM_PER_UNIT: Self =
        Self { unit: "millimetres per unit of the file", range: Range::Positive };
    /// What a gauge shows.
    pub(super) const GAUGE: Self = Self { unit: "bar", range: Range::NotNegative };
    /// How finely it is read.
    pub(super) const GAUGE_STEP: Self = Self { unit: "bar", range: Range::NotNegative };
    /// The temperature of air that is shut in.
    pub(super) const AIR_CELSIUS: Self =
        Self { unit: "degrees Celsius", range: Range::Temperature };
    pub(super) const SECONDS: Self = Self { unit: "seconds", range: Range::NotNegative };
    /// A component of a direction.
    pub(super) const DIRECTION: Self = Self::of("any unit");

    const fn of(unit: &'static str) -> Self {
        Self { unit, range: Range::Any }
    }

    fn is_in_bay(self) -> bool {
        matches!(self.range, Range::InBay | Range::Span { .. })
    }

    fn holds(self, value: f64) -> bool {
        match self.range {
            // How large it is, is told apart.
            Range::Any | Range::InBay => true,
            Range::NotNegative | Range::Span { positive: false } => value >= 0.0,
            Range::Positive | Range::Span { positive: true } => value > 0.0,
            Range::HalfTurn => (0.0..=180.0).contains(&value),
            Range::Tilt => value.abs() < 90.0,
            Range::Share => (0.0..=1.0).contains(&value),
            Range::Slack => (0.0..=100.0).contains(&value),
            Range::Temperature => value > -273.15,
        }
    }
}

impl Kind for Quantity {
    type Out = f64;

    fn expected(&self) -> String {
        let range = match self.range {
            Range::Any | Range::InBay => "a number",
            Range::NotNegative | Range::Span { positive: false } => "a number, 0 or more",
            Range::Positive | Range::Span { positive: true } => "a number above 0",
            Range::HalfTurn => "a number from 0 to 180",
            Range::Tilt => "a number between -90 and 90",
            Range::Share => "a number from 0 to 1",
            Range::Slack => "a number from 0 to 100",
            Range::Temperature => "a number above -273.15",
        };
        format!("{range} ({})", self.unit)
    }

    fn accept(&self, at: &At<'_>) -> Option<f64> {
        match (at.node.as_f64(), &at.node.json) {
            (Some(value), _) if !self.holds(value) => at.wrong(&self.expected()),
            (Some(value), _) if value.abs() > MAX_BAY_MM && self.is_in_bay() => {
                let expected = "no more than 100000 millimetres (100 m), the size of a bay";
                at.wrong_hint(expected, "all lengths of a bay file are millimetres".to_owned());
            }
            (Some(value), _) if value.abs() > MAX_SIZE => {
                at.wrong(&format!("a number no larger than 1e9 ({})", self.unit));
            }
            (Some(value), _) => return Some(value),
            (None, Json::Text(text)) if text.trim().parse::<f64>().is_ok() => {
                at.wrong_hint(&self.expected(), "write it without quotes".to_owned());
            }
            (None, _) => at.wrong(&self.expected()),
        }
        None
    }
}
