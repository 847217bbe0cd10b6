//! Numbers: each with its unit and its range.

use super::{At, Kind, Tree};
use crate::document::file::json::Json;

/// A number with its unit and range.
#[derive(Clone, Copy)]
pub(super) struct Quantity {
    unit: &'static str,
    range: Range,
    /// Whether it is a coordinate or a length, which a bay has no room for beyond its size.
    is_in_bay: bool,
    stand_in: f64,
}

/// What it may be: in words, and as a test.
type Range = (&'static str, fn(f64) -> bool);

const ANY: Range = ("a number", |_| true);
const NOT_NEGATIVE: Range = ("a number, 0 or more", |value| value >= 0.0);
const POSITIVE: Range = ("a number above 0", |value| value > 0.0);
const HALF_TURN: Range = ("a number from 0 to 180", |value| (0.0..=180.0).contains(&value));
/// Short of lying on its side.
const TILT: Range = ("a number between -90 and 90", |value| value.abs() < 90.0);
const SHARE: Range = ("a number from 0 to 1", |value| (0.0..=1.0).contains(&value));
const SLACK: Range = ("a number from 0 to 100", |value| (0.0..=100.0).contains(&value));
/// Warmer than nothing can be cold.
const TEMPERATURE: Range = ("a number above -273.15", |value| value > -273.15);

/// No number of a bay file is larger: the squares of much larger ones leave the numbers of the
/// machine.
pub(super) const MAX_SIZE: f64 = 1e9;

/// A bay has a size: nothing in it is farther from its origin, and no length in it is longer, mm.
/// It is 100 m, more than any engine room: beyond it a slip of the fingers is certain.
pub const MAX_BAY_MM: f64 = 1e5;

const MM: &str = "millimetres";

impl Quantity {
    /// A coordinate.
    pub(super) const MM: Self = Self::length(ANY);
    /// A length that may be nothing.
    pub(super) const LENGTH: Self = Self::length(NOT_NEGATIVE);
    /// A length that may not be nothing.
    pub(super) const SIZE: Self = Self::length(POSITIVE);
    /// Of hose on a reel, which may be longer than any bay.
    pub(super) const REEL: Self = Self::of(MM, POSITIVE);
    /// How far a fitting is bent. Bent all the way, an end may measure anything.
    pub(super) const HALF_TURN: Self = Self { stand_in: 180.0, ..Self::of("degrees", HALF_TURN) };
    /// How far a vehicle or boat tilts.
    pub(super) const TILT: Self = Self::of("degrees", TILT);
    /// A turn.
    pub(super) const DEGREES: Self = Self::of("degrees", ANY);
    /// A share that may be negative.
    pub(super) const PERCENT: Self = Self::of("per cent", ANY);
    /// A share.
    pub(super) const SLACK: Self = Self::of("per cent", SLACK);
    pub(super) const BAR: Self = Self::of("bar", ANY);
    pub(super) const CELSIUS: Self = Self::of("degrees Celsius", ANY);
    pub(super) const LPM: Self = Self::of("litres per minute", ANY);
    /// A density.
    pub(super) const KG_PER_M3: Self = Self::of("kilograms per cubic metre", POSITIVE);
    /// A kinematic viscosity.
    pub(super) const MM2_PER_S: Self = Self::of("square millimetres per second", POSITIVE);
    /// How much a hose swells.
    pub(super) const ML_PER_M: Self = Self::of("millilitres per metre", NOT_NEGATIVE);
    /// A pressure that may not be nothing.
    pub(super) const PRESSURE: Self = Self::of("bar", POSITIVE);
    pub(super) const KG: Self = Self::of("kilograms", ANY);
    pub(super) const KG_PER_M: Self = Self::of("kilograms per metre", ANY);
    pub(super) const PRICE: Self = Self::of("your own money", NOT_NEGATIVE);
    pub(super) const PRICE_PER_M: Self = Self::of("your own money per metre", NOT_NEGATIVE);
    /// How strongly something is drawn.
    pub(super) const SHARE: Self = Self::of("1: full strength", SHARE);
    pub(super) const PIXELS: Self = Self::of("pixels", ANY);
    pub(super) const SIZE_PX: Self = Self::of("pixels", POSITIVE);
    pub(super) const MM_PER_PIXEL: Self = Self::of("millimetres per pixel", POSITIVE);
    pub(super) const MM_PER_UNIT: Self = Self::of("millimetres per unit of the file", POSITIVE);
    /// What a gauge shows.
    pub(super) const GAUGE: Self = Self::of("bar", NOT_NEGATIVE);
    /// How finely it is read.
    pub(super) const GAUGE_STEP: Self = Self::of("bar", NOT_NEGATIVE);
    /// The temperature of air that is shut in.
    pub(super) const AIR_CELSIUS: Self = Self::of("degrees Celsius", TEMPERATURE);
    pub(super) const SECONDS: Self = Self::of("seconds", NOT_NEGATIVE);
    /// A component of a direction.
    pub(super) const DIRECTION: Self = Self::of("any unit", ANY);

    const fn of(unit: &'static str, range: Range) -> Self {
        Self { unit, range, is_in_bay: false, stand_in: 0.0 }
    }

    const fn length(range: Range) -> Self {
        Self { is_in_bay: true, ..Self::of(MM, range) }
    }
}

impl Kind for Quantity {
    type Out = f64;

    fn expected(&self) -> String {
        format!("{} ({})", self.range.0, self.unit)
    }

    fn accept(&self, at: &At<'_>) -> Option<f64> {
        match (at.node.as_f64(), &at.node.json) {
            (Some(value), _) if !self.range.1(value) => at.wrong(&self.expected()),
            (Some(value), _) if value.abs() > MAX_BAY_MM && self.is_in_bay => {
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

    fn stand_in(&self) -> f64 {
        self.stand_in
    }

    fn tree<'a>(&self, value: &'a f64) -> Tree<'a> {
        Tree::Figure(*value)
    }
}
