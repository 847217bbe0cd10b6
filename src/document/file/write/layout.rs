//! The text of a tree.

use serde_json::{Number, Value};

use super::super::fault::escape;
use super::NotFinite;
use super::tree::Tree;

/// The text, with a line end after the last line.
pub(super) fn lay_out(tree: &Tree<'_>) -> Result<String, NotFinite> {
    let mut text = String::new();
    put(tree, 0, &mut text)?;
    text.push('\n');
    Ok(text)
}

fn put(tree: &Tree<'_>, depth: usize, text: &mut String) -> Result<(), NotFinite> {
    match tree {
        Tree::Null => text.push_str("null"),
        Tree::Bool(value) => text.push_str(if *value { "true" } else { "false" }),
        Tree::Figure(figure) => text.push_str(&number(*figure)?),
        Tree::Unknown(number) => text.push_str(&number.to_string()),
        Tree::Text(words) => text.push_str(&quoted(words)),
        Tree::List(items) if items.is_empty() => text.push_str("[]"),
        Tree::List(items) if items.iter().all(is_number) => {
            for (index, item) in items.iter().enumerate() {
                text.push_str(if index == 0 { "[" } else { ", " });
                put(item, depth, text).map_err(|fault| fault.inside(&index.to_string()))?;
            }
            text.push(']');
        }
        Tree::List(items) => {
            for (index, item) in items.iter().enumerate() {
                open_line(if index == 0 { "[" } else { "," }, depth + 1, text);
                put(item, depth + 1, text).map_err(|fault| fault.inside(&index.to_string()))?;
            }
            open_line("", depth, text);
            text.push(']');
        }
        Tree::Object(members) if members.is_empty() => text.push_str("{}"),
        Tree::Object(members) => {
            for (index, (key, value)) in members.iter().enumerate() {
                open_line(if index == 0 { "{" } else { "," }, depth + 1, text);
                text.push_str(&quoted(key));
                text.push_str(": ");
                put(value, depth + 1, text).map_err(|fault| fault.inside(&escape(key)))?;
            }
            open_line("", depth, text);
            text.push('}');
        }
    }
    Ok(())
}

impl NotFinite {
    /// The same fault, told from one level further out.
    fn inside(mut self, token: &str) -> Self {
        self.pointer = format!("/{token}{}", self.pointer);
        self
    }
}

fn open_line(closing: &str, depth: usize, text: &mut String) {
    text.push_str(closing);
    text.push('\n');
    text.push_str(&"  ".repeat(depth));
}

fn is_number(tree: &Tree<'_>) -> bool {
    matches!(tree, Tree::Figure(_) | Tree::Unknown(_))
}

fn quoted(text: &str) -> String {
    Value::from(text).to_string()
}

/// A number as short as it can be and still be read back the same; zero without its sign.
fn number(figure: f64) -> Result<String, NotFinite> {
    /// From here on not every whole number has its own f64.
    const WHOLE: f64 = 9_007_199_254_740_992.0;
    if figure.fract() == 0.0 && figure.abs() < WHOLE {
        return Ok((figure as i64).to_string());
    }
    match Number::from_f64(figure) {
        Some(number) => Ok(number.to_string()),
        None => Err(NotFinite { pointer: String::new(), found: figure.to_string() }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_come_back_the_same() {
        let told = |figure| number(figure).unwrap();
        assert_eq!(told(0.0), "0");
        assert_eq!(told(-0.0), "0");
        assert_eq!(told(-3.0), "-3");
        assert_eq!(told(0.1), "0.1");
        assert_eq!(told(7.9), "7.9");
        assert_eq!(told(0.1 + 0.2), "0.30000000000000004");
        for figure in [1e15, 1e16, 9.007_199_254_740_993e15, 1e300, 5e-324, f64::MAX, 1.0 / 3.0] {
            assert_eq!(told(figure).parse::<f64>().unwrap(), figure);
            assert_eq!(serde_json::from_str::<f64>(&told(figure)).unwrap(), figure);
        }
    }

    #[test]
    fn a_number_that_is_not_finite_is_told_with_its_place() {
        let tree = Tree::Object(vec![(
            "a/b",
            Tree::List(vec![Tree::Text("x"), Tree::List(vec![Tree::Figure(f64::NAN)])]),
        )]);
        let fault = lay_out(&tree).unwrap_err();
        assert_eq!((fault.pointer.as_str(), fault.found.as_str()), ("/a~1b/1/0", "NaN"));
    }

    #[test]
    fn rows_of_numbers_stand_on_one_line() {
        let tree = Tree::Object(vec![
            ("at", Tree::List(vec![Tree::Figure(1.0), Tree::Figure(2.5)])),
            ("none", Tree::List(vec![])),
            ("words", Tree::List(vec![Tree::Text("é\n")])),
        ]);
        let text =
            "{\n  \"at\": [1, 2.5],\n  \"none\": [],\n  \"words\": [\n    \"é\\n\"\n  ]\n}\n";
        assert_eq!(lay_out(&tree).unwrap(), text);
    }
}
