//! What routings are called in a sentence.

use crate::model::{Routing, name_or};

/// No longer, in letters, if it can be helped.
const SHORT: usize = 28;

/// A short name for each: the head of its name (up to a colon, comma or bracket) where that is short and
/// no other's, else its name where that is, else its id, else its letter.
pub(super) fn short_names(routings: &[(&Routing, char)]) -> Vec<String> {
    let ways: [fn(&Routing) -> &str; 3] = [
        |routing| head(name_or(&routing.name, &routing.id)),
        |routing| name_or(&routing.name, &routing.id),
        |routing| &routing.id,
    ];
    let named = ways.iter().find_map(|way| {
        let names: Vec<String> =
            routings.iter().map(|(routing, _)| way(routing).to_owned()).collect();
        let fits = names.iter().enumerate().all(|(place, name)| {
            !name.is_empty() && name.chars().count() <= SHORT && !names[..place].contains(name)
        });
        fits.then_some(names)
    });
    named
        .unwrap_or_else(|| routings.iter().map(|(_, letter)| format!("Routing {letter}")).collect())
}

fn head(name: &str) -> &str {
    name.split([':', ',', '(']).next().unwrap_or(name).trim()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn names(routings: &[(&str, &str)]) -> Vec<String> {
        let routings: Vec<Routing> = routings
            .iter()
            .map(|(id, name)| Routing {
                id: (*id).into(),
                name: (*name).into(),
                ..Routing::default()
            })
            .collect();
        let with_letters: Vec<(&Routing, char)> = routings.iter().zip('A'..='Z').collect();
        short_names(&with_letters)
    }

    #[test]
    fn heads_where_they_tell_apart_else_ids_else_letters() {
        assert_eq!(names(&[("a", "Low: by the rail"), ("b", "High: over it")]), ["Low", "High"]);
        assert_eq!(names(&[("a", "Low: left"), ("b", "Low: right")]), ["Low: left", "Low: right"]);
        let long = "Low, along the left rail and then round the back";
        assert_eq!(names(&[("a", long), ("b", &format!("{long} again"))]), ["a", "b"]);
        assert_eq!(names(&[("a", "Over"), ("a", "Over")]), ["Routing A", "Routing B"]);
        assert_eq!(names(&[("a", ""), ("b", " ")]), ["a", "b"]);
    }
}
