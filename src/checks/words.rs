//! The sentences of a clearance, the same in every rule.

use super::figures::Figures;
use crate::model::Nature;

/// The shape of a hose that a clearance belongs to.
#[derive(Debug, Clone, Copy)]
pub(super) enum Shape<'a> {
    Drawn,
    Installed,
    /// Bowed another way than shown.
    OtherWay,
    /// Installed, in a position of the moving groups.
    Position(&'a str),
}

impl Shape<'_> {
    /// A sentence about it, from what comes before the shape and what after.
    pub(super) fn sentence(self, head: &str, tail: &str) -> String {
        match self {
            Self::Drawn => format!("{head} as drawn{tail}"),
            Self::Installed => format!("{head} as installed{tail}"),
            Self::OtherWay => format!("Bowed another way: {}{tail}", first_lower(head)),
            Self::Position(name) => format!("{}: {}{tail}", position(name), first_lower(head)),
        }
    }
}

/// `Fouls Bulkhead by 3/16 in as installed`, `Clearance to Gearbox 1/16 in as installed, minimum 3/8 in`.
pub(super) fn clearance(
    figures: Figures,
    shape: Shape<'_>,
    name: &str,
    (gap_mm, min_mm): (f64, f64),
    nature: Nature,
) -> String {
    let (gap, min) = figures.lengths(gap_mm, min_mm);
    let nature = match nature {
        Nature::Plain => String::new(),
        nature => format!(", {}", nature.word()),
    };
    if gap_mm < 0.0 {
        let head = format!("Fouls {name} by {}", figures.depth(-gap_mm));
        let min = if min_mm > 0.0 {
            format!(" (minimum clearance {min}{nature})")
        } else {
            String::new()
        };
        return shape.sentence(&head, &min);
    }
    let nature = nature.strip_prefix(", ").map_or_else(String::new, |word| format!(" ({word})"));
    shape.sentence(&format!("Clearance to {name} {gap}"), &format!(", minimum {min}{nature}"))
}

/// The name of a position within a message, in which a semicolon ends what is wrong.
pub(super) fn position(name: &str) -> String {
    name.replace("; ", ", ")
}

/// `diesel` as `Diesel`: a sentence begins with it.
pub(super) fn first_upper(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// `Make` as `make`: within a sentence.
pub(super) fn first_lower(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// `a, b and c`
pub(super) fn and(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::LengthUnit;

    fn said(shape: Shape<'_>, gap_mm: f64, min_mm: f64, nature: Nature) -> String {
        clearance(Figures { unit: LengthUnit::Inch }, shape, "Bulkhead", (gap_mm, min_mm), nature)
    }

    #[test]
    fn a_minimum_of_nothing_is_not_named() {
        let fouls = said(Shape::Installed, -4.7625, 0.0, Nature::Plain);
        assert_eq!(fouls, "Fouls Bulkhead by 3/16 in as installed");
        let fouls = said(Shape::Position("Engine pivoted +3°"), -4.7625, 9.525, Nature::Hot);
        assert_eq!(
            fouls,
            "Engine pivoted +3°: fouls Bulkhead by 3/16 in (minimum clearance 3/8 in, hot)"
        );
    }

    #[test]
    fn a_gap_is_named_with_its_minimum() {
        let near = said(Shape::Installed, 1.5875, 9.525, Nature::Plain);
        assert_eq!(near, "Clearance to Bulkhead 1/16 in as installed, minimum 3/8 in");
        let near = said(Shape::OtherWay, 1.5875, 9.525, Nature::Sharp);
        assert_eq!(
            near,
            "Bowed another way: clearance to Bulkhead 1/16 in, minimum 3/8 in (sharp)"
        );
    }
}
