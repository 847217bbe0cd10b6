//! One cell of a table, from and to the value that the file has.

use serde_json::{Number, Value};

use super::columns::Sort;
use crate::units::{Measure, quotable};

const YES: &str = "yes";
const NO: &str = "no";

/// As it is written; the plain metric number where it is one.
pub(super) fn written(value: &Value) -> String {
    match value {
        Value::String(text) => guarded(text),
        Value::Bool(value) => if *value { YES } else { NO }.to_owned(),
        Value::Number(number) => number.to_string(),
        _ => String::new(),
    }
}

/// What a spreadsheet would take for a formula stands behind an apostrophe (common practice); so does a
/// text that begins with one before such a sign, so that it comes back.
fn guarded(text: &str) -> String {
    if is_like_formula(text) { format!("'{text}") } else { text.to_owned() }
}

fn is_like_formula(text: &str) -> bool {
    text.trim_start_matches(|c: char| c == '\'' || c.is_whitespace())
        .starts_with(['=', '+', '-', '@'])
}

/// The value of a cell that is not empty.
///
/// # Errors
/// What is expected.
pub(super) fn read(cell: &str, sort: Sort, measure: Measure) -> Result<Value, String> {
    match sort {
        Sort::Text => {
            let text = cell.strip_prefix('\'').filter(|rest| is_like_formula(rest)).unwrap_or(cell);
            Ok(Value::from(text))
        }
        Sort::Flag => match cell.trim().to_lowercase().as_str() {
            YES | "true" | "1" => Ok(Value::Bool(true)),
            NO | "false" | "0" => Ok(Value::Bool(false)),
            _ => Err("yes or no".to_owned()),
        },
        _ => number(cell.trim(), measure).map(Value::Number),
    }
}

/// From here on not every whole number has its own f64.
const WHOLE: f64 = 9_007_199_254_740_992.0;

fn number(cell: &str, measure: Measure) -> Result<Number, String> {
    // A plain metric number comes back to the last digit.
    let is_metric = measure != Measure::Dash && measure.parse("1").is_ok_and(|one| one == 1.0);
    let plain = cell.parse::<f64>().ok().filter(|value| is_metric && value.is_finite());
    let value = plain.map_or_else(|| measure.parse(cell).map_err(|error| error.beside()), Ok);
    let sign = measure.sign();
    let expected = |why: String| match sign {
        "" => format!("a number ({why})"),
        sign => format!("a number in {sign} ({why})"),
    };
    value.map_err(expected).and_then(|value| {
        if value.fract() == 0.0 && value.abs() < WHOLE {
            return Ok(Number::from(value as i64));
        }
        Number::from_f64(value).ok_or_else(|| expected("this one is not finite".to_owned()))
    })
}

/// A cell as a message quotes it.
pub(super) fn quoted(cell: &str) -> String {
    if cell.trim().is_empty() {
        "nothing".to_owned()
    } else {
        format!("\u{201c}{}\u{201d}", quotable(cell))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::LengthUnit;

    #[test]
    fn no_text_becomes_a_formula_and_each_comes_back() {
        for text in ["plain", "=1+1", " -6 hose", "'=x", "''@x", "'quoted'", "x = y"] {
            let cell = written(&Value::from(text));
            assert!(!cell.trim_start().starts_with(['=', '+', '-', '@']), "{cell}");
            assert_eq!(read(&cell, Sort::Text, Measure::Number), Ok(Value::from(text)));
        }
    }

    #[test]
    fn numbers_are_read_in_the_unit_of_the_column_or_their_own() {
        let [mm, inch] = [LengthUnit::Mm, LengthUnit::Inch].map(Measure::Length);
        let read =
            |cell: &str, measure| read(cell, Sort::Length, measure).map(|v| v.as_f64().unwrap());
        assert_eq!(read("12.7", mm), Ok(12.7));
        assert_eq!(read(" 1/2 in", mm), Ok(12.7));
        assert_eq!(read("1/2", inch), Ok(12.7));
        assert!(read("wide", mm).unwrap_err().starts_with("a number in mm ("));
        assert!(read("nan", mm).is_err());
    }
}
