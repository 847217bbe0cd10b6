//! The trade-off in one sentence, from the figures.

use std::cmp::Ordering;

use super::all::All;
use super::aspect::{Aspect, what_is_missing};
use super::judge::{Standing, standing};
use super::words::{count, joined};

/// As many advantages and drawbacks are told; the table has all.
const MOST_GAINS: usize = 3;
const MOST_DRAWBACKS: usize = 2;

/// The drawbacks that are told first: what a builder pays for safety.
const DRAWBACKS: [Aspect; 2] = [Aspect::Cost, Aspect::Hose];

/// The sentence; `is_same` says that every figure of the table reads the same.
pub(super) fn sentence(all: &All<'_>, is_same: bool) -> String {
    let judged = match all.routings.len() {
        0 | 1 => return "There is nothing to compare it with.".to_owned(),
        2 => of_two(all, is_same),
        _ => of_more(all, is_same),
    };
    format!("{}{judged}", other_hoses(all))
}

/// Which hoses are missing where: what is not in both cannot be compared.
fn other_hoses(all: &All<'_>) -> String {
    let mut names: Vec<(&str, &str)> = Vec::new();
    for run in all.routings.iter().flat_map(|one| &one.figures.runs) {
        if !names.iter().any(|(id, _)| *id == run.id) {
            names.push((&run.id, &run.name));
        }
    }
    let missing = all.routings.iter().filter_map(|one| {
        let lacks = |id: &str| one.figures.runs.iter().all(|run| run.id != id);
        let lacking = names.iter().filter(|(id, _)| lacks(id)).map(|(_, name)| (*name).to_owned());
        let lacking: Vec<String> = lacking.collect();
        (!lacking.is_empty()).then(|| format!("{} has no {}", one.short, joined(&lacking)))
    });
    let missing: Vec<String> = missing.collect();
    if missing.is_empty() {
        return String::new();
    }
    format!("Not the same hoses: {}. ", missing.join("; "))
}

/// The routing that comes first: better in the first aspect that tells any two apart. The one before it
/// where nothing does.
fn preferred(all: &All<'_>) -> usize {
    let is_better = |one: usize, other: usize| {
        let mut told = Aspect::ALL.iter().filter_map(|aspect| all.order(*aspect, one, other));
        told.find(|order| *order != Ordering::Equal) == Some(Ordering::Less)
    };
    (1..all.routings.len()).fold(0, |best, one| if is_better(one, best) { one } else { best })
}

fn of_two(all: &All<'_>, is_same: bool) -> String {
    let first = preferred(all);
    let other = 1 - first;
    let told = |wanted: Ordering| -> Vec<Aspect> {
        let all_told = Aspect::ALL.into_iter();
        all_told.filter(|aspect| all.order(*aspect, first, other) == Some(wanted)).collect()
    };
    let (gains, drawbacks) = (told(Ordering::Less), told(Ordering::Greater));
    let unknown: Vec<Aspect> = Aspect::ALL
        .into_iter()
        .filter(|aspect| all.order(*aspect, first, other).is_none())
        .collect();
    let [a, b] = [first, other].map(|place| all.routings[place].short);
    let clauses = |aspects: &[Aspect], most: usize| {
        let told = aspects.iter().take(most);
        joined(&told.map(|aspect| all.clause(*aspect, first, other)).collect::<Vec<_>>())
    };
    let gained = clauses(&gains, MOST_GAINS);
    let main = match (gains.is_empty(), drawbacks.is_empty(), unknown.is_empty()) {
        (true, true, true) if is_same => {
            format!("{a} and {b} are equal in every figure of the table")
        }
        (true, true, true) => format!(
            "{a} and {b} are equal in faults, room, bends, slack, cost, hose, spans, pressure drop and mass; they \
             differ only in what the table lists besides"
        ),
        (true, true, false) => format!("{a} and {b} do not differ in anything that is known"),
        (false, true, true) if gains.len() == 1 => {
            format!("{a} {gained}; in all else they are equal")
        }
        // What may not be built as it is, is not praised.
        (false, true, _) if has_faults(all, first) => format!("{a} {gained}"),
        (false, true, true) => format!("{a} is better in everything that differs: it {gained}"),
        (false, true, false) => {
            format!("{a} is better in everything that differs and is known: it {gained}")
        }
        (true, false, _) => {
            format!("{a} {}", clauses(&drawbacks_first(&drawbacks), MOST_DRAWBACKS))
        }
        (false, false, _) => {
            let lost = clauses(&drawbacks_first(&drawbacks), MOST_DRAWBACKS);
            format!("{a} {lost}, but {gained}")
        }
    };
    format!("{main}{}{}.", none_is_fine(all, &[first, other]), not_told(all, &unknown))
}

fn drawbacks_first(drawbacks: &[Aspect]) -> Vec<Aspect> {
    let (mut paid, others): (Vec<Aspect>, Vec<Aspect>) =
        drawbacks.iter().partition(|aspect| DRAWBACKS.contains(aspect));
    paid.extend(others);
    paid
}

fn has_faults(all: &All<'_>, place: usize) -> bool {
    all.routings[place].counts.faults > 0
}

/// That none of them may be built as it is, where all have faults; how many, where that is no difference.
fn none_is_fine(all: &All<'_>, places: &[usize]) -> String {
    if !places.iter().all(|place| has_faults(all, *place)) {
        return String::new();
    }
    let faults: Vec<usize> =
        places.iter().map(|place| all.routings[*place].counts.faults).collect();
    let none = if places.len() == 2 { "neither" } else { "none" };
    let each = if places.len() == 2 { "both have" } else { "each has" };
    let alike = faults.windows(2).all(|pair| pair[0] == pair[1]);
    let many = match faults.first() {
        Some(n) if alike => format!(": {each} {}", count(*n, "fault")),
        _ => String::new(),
    };
    format!("; {none} may be built yet{many}")
}

fn not_told(all: &All<'_>, unknown: &[Aspect]) -> String {
    if unknown.is_empty() {
        return String::new();
    }
    let asked = |aspect: &Aspect| match aspect {
        Aspect::Cost => format!("{}{}", aspect.question(), missing_price(all)),
        other => other.question().to_owned(),
    };
    let questions: Vec<String> = unknown.iter().map(asked).collect();
    format!("; {} cannot be told", joined(&questions))
}

/// Which price stands against telling the dearer.
fn missing_price(all: &All<'_>) -> String {
    let costs: Vec<_> = all.routings.iter().map(|one| &one.figures.cost).collect();
    let missing = what_is_missing(&costs);
    match &missing[..] {
        [] => String::new(),
        [one] => format!(" (the price of {one} is unknown)"),
        [one, more @ ..] => {
            format!(" (the prices of {one} and of {} more are unknown)", more.len())
        }
    }
}

fn of_more(all: &All<'_>, is_same: bool) -> String {
    let number = all.routings.len();
    let names: Vec<String> = all.routings.iter().map(|one| one.short.to_owned()).collect();
    let places: Vec<usize> = (0..number).collect();
    let stands: Vec<(Aspect, Standing)> = Aspect::ALL
        .into_iter()
        .map(|aspect| (aspect, standing(number, |one, other| all.order(aspect, one, other))))
        .collect();
    let unknown: Vec<Aspect> = stands
        .iter()
        .filter(|(_, standing)| *standing == Standing::NotTold)
        .map(|(aspect, _)| *aspect)
        .collect();
    let tail = format!("{}{}", none_is_fine(all, &places), not_told_of_more(&unknown));
    let first = preferred(all);
    let best = |standing: &Standing| match standing {
        Standing::Best(best) => Some(best.clone()),
        _ => None,
    };
    let told: Vec<(Aspect, Vec<usize>)> =
        stands.iter().filter_map(|(aspect, standing)| Some((*aspect, best(standing)?))).collect();
    if told.is_empty() {
        let equal = match (is_same, unknown.is_empty()) {
            (true, _) => "are equal in every figure of the table",
            (false, true) => "are equal in all that is judged",
            (false, false) => "do not differ in anything that is known",
        };
        return format!("{} {equal}{tail}.", joined(&names));
    }
    let (own, others): (Vec<_>, Vec<_>) = told.iter().partition(|(_, best)| best.contains(&first));
    let figures = |aspect: Aspect| {
        let each =
            places.iter().map(|place| format!("{} {}", names[*place], all.brief(aspect, *place)));
        each.collect::<Vec<_>>().join(", ")
    };
    let own: Vec<String> = own
        .iter()
        .take(MOST_GAINS)
        .map(|(aspect, _)| format!("{} ({})", aspect.best(), figures(*aspect)))
        .collect();
    // What is paid for safety first; among those alike the order stays.
    let mut others = others;
    others.sort_by_key(|(aspect, _)| !DRAWBACKS.contains(aspect));
    let others: Vec<String> = others
        .iter()
        .take(MOST_GAINS)
        .map(|(aspect, best)| {
            let best: Vec<String> = best.iter().map(|place| names[*place].clone()).collect();
            format!("{} with {} ({})", aspect.best(), joined(&best), figures(*aspect))
        })
        .collect();
    let main = match (own.is_empty(), others.is_empty()) {
        (false, true) => {
            let best = if has_faults(all, first) {
                "has"
            } else {
                "is the best or equal in all that differs:"
            };
            format!("Of {number} routings {} {best} {}", names[first], joined(&own))
        }
        (false, false) => {
            format!(
                "Of {number} routings {} has {}; but {}",
                names[first],
                joined(&own),
                joined(&others)
            )
        }
        (true, _) => format!("Of {number} routings: {}", joined(&others)),
    };
    format!("{main}{tail}.")
}

fn not_told_of_more(unknown: &[Aspect]) -> String {
    if unknown.is_empty() {
        return String::new();
    }
    let questions: Vec<String> = unknown.iter().map(|one| one.best().to_owned()).collect();
    format!("; which has the {} cannot be told", joined(&questions))
}
