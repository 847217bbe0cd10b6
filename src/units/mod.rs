//! Quantities: newtypes, parsing what people type, formatting, rounding up to the bench's step.
//!
//! Stored in the bay's own units (millimetres, degrees, bar gauge, degrees Celsius, litres per
//! minute); the units asked for here are for display and for bare numbers only.

mod angle;
mod derived;
mod flow;
mod fraction;
mod length;
mod measure;
mod number;
mod parse;
mod plain_text;
mod pressure;
mod temperature;

pub use angle::Angle;
pub use derived::Derived;
pub use flow::{Flow, FlowUnit};
pub use fraction::{line_words, unbroken};
pub use length::{Length, LengthUnit};
pub use measure::{Measure, Shown};
pub use number::{Percent, parse_count, parse_number, significant};
pub use parse::{Fault, ParseError, Quantity};
pub use plain_text::{
    escaped, escaped_lines, first_lower, first_upper, is_plain, is_plain_in_lines, named, quotable,
    quotable_within, shown_name, shown_path,
};
pub use pressure::{Pressure, PressureUnit};
pub use temperature::{Temperature, TemperatureUnit};

/// The one tolerance on lengths, mm: a value within it of a step or limit counts as on it.
pub const EPS_MM: f64 = 1e-6;

/// What is shown before negative figures: the minus sign U+2212, as wide as a digit.
const MINUS: char = '\u{2212}';

/// `value` to `places` decimals, zeros at the end dropped, with a true minus sign and no "−0".
fn decimal(value: f64, places: usize) -> String {
    let digits = format!("{:.places$}", value.abs());
    let digits = match digits.split_once('.') {
        Some((whole, part)) => match part.trim_end_matches('0') {
            "" => whole.to_owned(),
            part => format!("{whole}.{part}"),
        },
        None => digits,
    };
    if value < 0.0 && digits != "0" { format!("{MINUS}{digits}") } else { digits }
}

#[cfg(test)]
mod tests {
    use super::decimal;

    #[test]
    fn decimals_drop_zeros_at_the_end_only() {
        for (value, places, text) in [
            (314.3, 1, "314.3"),
            (300.0, 1, "300"),
            (0.04, 1, "0"),
            (-0.04, 1, "0"),
            (-1.25, 2, "\u{2212}1.25"),
            (100.0, 0, "100"),
            (1.50, 2, "1.5"),
        ] {
            assert_eq!(decimal(value, places), text);
        }
    }
}
