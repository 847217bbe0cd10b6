//! Sleeves on the sheet: what goes where, and when.

use super::Fact;
use crate::engine::RunSolution;
use crate::model::{Run, Sleeve};
use crate::units::{Length, LengthUnit, Temperature};

/// One line a sleeve.
pub(super) fn facts(run: &Run, solution: &RunSolution, unit: LengthUnit) -> Vec<Fact> {
    let fact = |sleeve: &Sleeve| {
        let what = format!("{}, {}", sleeve.shown_name(), place(sleeve, solution, unit));
        Fact::new("sleeve", what, rated(sleeve, unit))
    };
    run.sleeves.iter().map(fact).collect()
}

/// What to do before the second end closes the hose; none without sleeves.
pub(super) fn step(run: &Run, solution: &RunSolution, unit: LengthUnit) -> Option<String> {
    let told =
        |sleeve: &Sleeve| format!("{} ({})", sleeve.shown_name(), place(sleeve, solution, unit));
    let all: Vec<String> = run.sleeves.iter().map(told).collect();
    (!all.is_empty()).then(|| format!("Before the second end: slide on {}", all.join("; ")))
}

/// On the hose laid straight.
fn place(sleeve: &Sleeve, solution: &RunSolution, unit: LengthUnit) -> String {
    if sleeve.from_mm.is_none() && sleeve.to_mm.is_none() {
        return "all along the hose".to_owned();
    }
    let (from, to) = sleeve.range_mm(solution.centreline_mm);
    let show = |mm: f64| Length::from_mm(solution.on_bench_mm(mm)).show(unit);
    format!("from {} to {} from cut end A", show(from), show(to))
}

fn rated(sleeve: &Sleeve, unit: LengthUnit) -> String {
    let words: Vec<&str> = sleeve.rated_for.iter().map(|nature| nature.word()).collect();
    let what = if words.is_empty() {
        "not said what it is rated for".to_owned()
    } else {
        format!("rated for {} parts", words.join(", "))
    };
    let to = sleeve.temperature_c.map_or_else(String::new, |celsius| {
        format!(", to {}", Temperature::from_celsius(celsius).show(unit))
    });
    format!(
        "{what}{to}; it does not raise the hose\u{2019}s own temperature rating (NAVEDTRA 14018)"
    )
}
