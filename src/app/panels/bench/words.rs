//! What the bench strip says. Figures along the hose are as installed on the bench, from cut end A.

use crate::engine::{Bend, RunSolution};
use crate::units::{Angle, EPS_MM, Length, LengthUnit};

/// Radius below which a bend is called a sharp corner, mm: it shows as 0.
const SHARP_MM: f64 = 0.05;

pub(super) fn is_tight(run: &RunSolution, bend: &Bend) -> bool {
    bend.radius_mm < run.radius_limit_mm - EPS_MM
}

/// What a bend is, in ever fewer words.
pub(super) fn bend(run: &RunSolution, bend: &Bend, unit: LengthUnit) -> Vec<String> {
    let angle = Angle::from_deg(bend.angle_deg).show();
    let radius = if bend.radius_mm < SHARP_MM {
        "sharp corner".to_owned()
    } else {
        format!("R {}", Length::from_mm(bend.radius_mm).number(unit))
    };
    let mut texts = vec![format!("{angle}, {radius}"), radius.clone()];
    if is_tight(run, bend) {
        let needs = Length::from_mm(run.radius_limit_mm).number(unit);
        texts.insert(0, format!("{angle}, {radius}, minimum {needs}"));
        texts.insert(1, format!("{radius}, minimum {needs}"));
    }
    texts
}

/// A clamp by its distance from A, in ever fewer words.
pub(super) fn clamp(bench_mm: f64, unit: LengthUnit) -> Vec<String> {
    let from_a = Length::from_mm(bench_mm);
    vec![format!("clamp {}", from_a.show(unit)), from_a.number(unit)]
}

/// "R 4 1/4 in": the limit at the centre line.
pub(super) fn limit(run: &RunSolution, unit: LengthUnit) -> String {
    format!("R {}", Length::from_mm(run.radius_limit_mm).show(unit))
}

/// "22 3/4 in from A".
pub(super) fn from_a(bench_mm: f64, unit: LengthUnit) -> String {
    format!("{} from A", Length::from_mm(bench_mm).show(unit))
}

/// What the hose does at a place.
pub(super) fn what_is_there(bend: Option<&str>, clamp: Option<&str>, gripped: bool) -> String {
    match (clamp, bend) {
        (Some(clamp), _) => clamp.to_owned(),
        (None, Some(bend)) => format!("bend {bend}"),
        (None, None) if gripped => "in the socket".to_owned(),
        (None, None) => "straight".to_owned(),
    }
}
