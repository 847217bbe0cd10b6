//! The kinds of values that a key may hold, each with the words that tell it.

use glam::DVec3;

use super::super::json::Json;
use super::cursor::At;

/// A kind of value.
pub(super) trait Kind {
    /// What it becomes.
    type Out;

    /// What it is, for "expected …".
    fn expected(&self) -> String;

    /// The value here, where it is of this kind; a fault and nothing where it is not.
    fn accept(&self, at: &At<'_>) -> Option<Self::Out>;
}

/// Any text.
pub(super) struct Text;

impl Kind for Text {
    type Out = String;

    fn expected(&self) -> String {
        "text".to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<String> {
        if let Json::Text(text) = &at.node.json {
            return Some(text.clone());
        }
        at.wrong(&self.expected());
        None
    }
}

/// Text that is not empty; what it is goes before it.
pub(super) struct Name(pub(super) &'static str);

impl Kind for Name {
    type Out = String;

    fn expected(&self) -> String {
        format!("{} (text, not empty)", self.0)
    }

    fn accept(&self, at: &At<'_>) -> Option<String> {
        match &at.node.json {
            Json::Text(text) if !text.is_empty() => return Some(text.clone()),
            _ => at.wrong(&self.expected()),
        }
        None
    }
}

/// Yes or no.
pub(super) struct Flag;

impl Kind for Flag {
    type Out = bool;

    fn expected(&self) -> String {
        "true or false".to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<bool> {
        if let Json::Bool(value) = at.node.json {
            return Some(value);
        }
        at.wrong(&self.expected());
        None
    }
}

/// One of a few words, each with what it stands for.
pub(super) struct Words<T: 'static>(pub(super) &'static [(T, &'static str)]);

impl<T: Copy> Kind for Words<T> {
    type Out = T;

    fn expected(&self) -> String {
        let words: Vec<String> = self.0.iter().map(|(_, word)| format!("\"{word}\"")).collect();
        match words.split_last() {
            Some((last, [])) => last.clone(),
            Some((last, rest)) => format!("{} or {last}", rest.join(", ")),
            None => String::new(),
        }
    }

    fn accept(&self, at: &At<'_>) -> Option<T> {
        if let Json::Text(text) = &at.node.json
            && let Some((value, _)) = self.0.iter().find(|(_, word)| word == text)
        {
            return Some(*value);
        }
        at.wrong(&self.expected());
        None
    }
}

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
}

/// No number of a bay is larger: a coordinate of 1000 km cannot be told to the millimetre any more,
/// and the squares of much larger ones leave the numbers of the machine.
const MAX_SIZE: f64 = 1e9;

const MM: &str = "millimetres";

impl Quantity {
    /// A coordinate.
    pub(super) const MM: Self = Self::of(MM);
    /// A length that may be nothing.
    pub(super) const LENGTH: Self = Self { unit: MM, range: Range::NotNegative };
    /// A length that may not be nothing.
    pub(super) const SIZE: Self = Self { unit: MM, range: Range::Positive };
    /// How far a fitting is bent.
    pub(super) const HALF_TURN: Self = Self { unit: "degrees", range: Range::HalfTurn };
    /// A turn.
    pub(super) const DEGREES: Self = Self::of("degrees");
    /// A share that may be negative.
    pub(super) const PERCENT: Self = Self::of("per cent");
    /// A share.
    pub(super) const SLACK: Self = Self { unit: "per cent", range: Range::NotNegative };
    pub(super) const BAR: Self = Self::of("bar");
    pub(super) const CELSIUS: Self = Self::of("degrees Celsius");
    pub(super) const LPM: Self = Self::of("litres per minute");
    pub(super) const KG: Self = Self::of("kilograms");
    pub(super) const KG_PER_M: Self = Self::of("kilograms per metre");
    pub(super) const PRICE: Self = Self::of("your own money");
    pub(super) const PRICE_PER_M: Self = Self::of("your own money per metre");
    /// A component of a direction.
    const DIRECTION: Self = Self::of("any unit");

    const fn of(unit: &'static str) -> Self {
        Self { unit, range: Range::Any }
    }

    fn holds(self, value: f64) -> bool {
        match self.range {
            Range::Any => true,
            Range::NotNegative => value >= 0.0,
            Range::Positive => value > 0.0,
            Range::HalfTurn => (0.0..=180.0).contains(&value),
        }
    }
}

impl Kind for Quantity {
    type Out = f64;

    fn expected(&self) -> String {
        let range = match self.range {
            Range::Any => "a number",
            Range::NotNegative => "a number, 0 or more",
            Range::Positive => "a number above 0",
            Range::HalfTurn => "a number from 0 to 180",
        };
        format!("{range} ({})", self.unit)
    }

    fn accept(&self, at: &At<'_>) -> Option<f64> {
        match (at.node.as_f64(), &at.node.json) {
            (Some(value), _) if !self.holds(value) => at.wrong(&self.expected()),
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

/// A whole number from 1 up; what it is goes before it.
pub(super) struct Whole(pub(super) &'static str);

impl Whole {
    /// The name of a size.
    pub(super) const DASH: Self = Self("a dash number");
}

impl Kind for Whole {
    type Out = u32;

    fn expected(&self) -> String {
        format!("{}: a whole number from 1 up", self.0)
    }

    fn accept(&self, at: &At<'_>) -> Option<u32> {
        let value = at.node.as_f64();
        if let Some(value) = value
            && value.fract() == 0.0
            && (1.0..=MAX_SIZE).contains(&value)
        {
            return Some(value as u32);
        }
        match &at.node.json {
            Json::Number(_) if value.is_some_and(|value| value < 0.0 && value.fract() == 0.0) => {
                at.wrong_hint(&self.expected(), "write it without the minus".to_owned());
            }
            Json::Text(text) if text.trim().parse::<i32>().is_ok() => {
                let hint = "write it without the quotes, and without a minus";
                at.wrong_hint(&self.expected(), hint.to_owned());
            }
            _ => at.wrong(&self.expected()),
        }
        None
    }
}

/// Numbers in a list of a fixed length.
struct Row<const N: usize>(Quantity, &'static str);

impl<const N: usize> Row<N> {
    fn accept(&self, at: &At<'_>) -> Option<[f64; N]> {
        let Some(items) = at.list().filter(|items| items.len() == N) else {
            at.wrong(self.1);
            return None;
        };
        let mut row = [0.0; N];
        let mut whole = true;
        for (place, item) in row.iter_mut().zip(&items) {
            match self.0.accept(item) {
                Some(value) => *place = value,
                None => whole = false,
            }
        }
        whole.then_some(row)
    }
}

/// A place in the bay.
pub(super) struct Point;

const POINT: &str = "a place: three numbers [x, y, z] (millimetres)";

impl Kind for Point {
    type Out = DVec3;

    fn expected(&self) -> String {
        POINT.to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<DVec3> {
        Row::<3>(Quantity::MM, POINT).accept(at).map(DVec3::from)
    }
}

/// A direction of any length but zero.
pub(super) struct Direction;

const DIRECTION: &str = "a direction: three numbers [x, y, z], not all 0";

impl Kind for Direction {
    type Out = DVec3;

    fn expected(&self) -> String {
        DIRECTION.to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<DVec3> {
        let direction = Row::<3>(Quantity::DIRECTION, DIRECTION).accept(at).map(DVec3::from)?;
        if direction == DVec3::ZERO {
            at.wrong(DIRECTION);
            return None;
        }
        Some(direction)
    }
}

/// Least and greatest.
pub(super) struct Span(pub(super) Quantity);

const SPAN: &str = "two numbers [least, greatest]";

impl Kind for Span {
    type Out = [f64; 2];

    fn expected(&self) -> String {
        SPAN.to_owned()
    }

    fn accept(&self, at: &At<'_>) -> Option<[f64; 2]> {
        Row::<2>(self.0, SPAN).accept(at)
    }
}
