//! What options are called in a sentence.

use crate::model::{Routing, name_or};

/// No longer, in letters, if it can be helped.
const SHORT: usize = 28;

/// A short name for each: the head of its name (up to a colon, comma or bracket) where that is short and
/// no other's, else its name where that is, else its id, else its letter.
pub(super) fn short_names(options: &[(&Routing, char)]) -> Vec<String> {
    let ways: [fn(&Routing) -> &str; 3] = [
        |option| head(name_or(&option.name, &option.id)),
        |option| name_or(&option.name, &option.id),
        |option| &option.id,
    ];
    let named = ways.iter().find_map(|way| {
        let names: Vec<String> = options.iter().map(|(option, _)| way(option).to_owned()).collect();
        let fits = names.iter().enumerate().all(|(place, name)| {
            !name.is_empty() && name.chars().count() <= SHORT && !names[..place].contains(name)
        });
        fits.then_some(names)
    });
    named.unwrap_or_else(|| options.iter().map(|(_, letter)| format!("Option {letter}")).collect())
}

fn head(name: &str) -> &str {
    name.split([':', ',', '(']).next().unwrap_or(name).trim()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(options: &[(&str, &str)]) -> Vec<String> {
        let options: Vec<Routing> = options
            .iter()
            .map(|(id, name)| Routing {
                id: (*id).into(),
                name: (*name).into(),
                ..Routing::default()
            })
            .collect();
        let with_letters: Vec<(&Routing, char)> = options.iter().zip('A'..='Z').collect();
        short_names(&with_letters)
    }

    #[test]
    fn heads_where_they_tell_apart_else_ids_else_letters() {
        assert_eq!(names(&[("a", "Low: by the rail"), ("b", "High: over it")]), ["Low", "High"]);
        assert_eq!(names(&[("a", "Low: left"), ("b", "Low: right")]), ["Low: left", "Low: right"]);
        let long = "Low, along the left rail and then round the back";
        assert_eq!(names(&[("a", long), ("b", &format!("{long} again"))]), ["a", "b"]);
        assert_eq!(names(&[("a", "Over"), ("a", "Over")]), ["Option A", "Option B"]);
        assert_eq!(names(&[("a", ""), ("b", " ")]), ["a", "b"]);
    }
}
