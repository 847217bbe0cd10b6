//! Small words that several parts of the comparison share.

use crate::engine::compare::{Against, Found, Lack, Sum};
use crate::model::{Bay, Construction};
use crate::report::sheet::dash_text;
use crate::units::{Derived, Length, LengthUnit, Percent, Pressure};

pub(super) const NOT_KNOWN: &str = "unknown";
pub(super) const NO_FLOW: &str = "no flow, or not sized";

/// `31 mm`, `1 1/4 in`.
pub(super) fn length(mm: f64, unit: LengthUnit) -> String {
    Length::from_mm(mm).show(unit)
}

/// `71 of 102 mm`.
pub(super) fn radius(bend: &Against, unit: LengthUnit) -> String {
    let number = Length::from_mm(bend.mm).number(unit);
    format!("{number} of {}", length(bend.limit_mm, unit))
}

/// `31 of 75 mm`; `6 mm, no minimum`; `fouls by 3 mm`, `fouls by 3 mm, minimum 10 mm`: the minimum counts too when
/// the worst is looked for.
pub(super) fn gap(near: &Against, unit: LengthUnit) -> String {
    let asks = near.limit_mm > 0.0;
    let asked = length(near.limit_mm, unit);
    match (is_cut_into(near), asks) {
        (true, true) => format!("fouls by {}, minimum {asked}", length(-near.mm, unit)),
        (true, false) => format!("fouls by {}", length(-near.mm, unit)),
        (false, true) => {
            format!("{} of {asked}", Length::from_mm(near.mm.max(0.0)).number(unit))
        }
        (false, false) => format!("{}, no minimum", length(near.mm.max(0.0), unit)),
    }
}

/// Less cannot be seen in what is shown.
pub(super) fn is_cut_into(near: &Against) -> bool {
    near.mm < -0.05
}

/// What an obstacle is called.
pub(super) fn obstacle_name(bay: &Bay, near: &Against) -> String {
    let obstacle = near.obstacle.and_then(|place| bay.obstacles.get(place));
    obstacle.map_or_else(String::new, |obstacle| obstacle.shown_name().to_owned())
}

/// `5 %`.
pub(super) fn per_cent(value: f64) -> String {
    Percent::from_pct(value).show()
}

pub(super) fn lack(lack: Lack) -> String {
    let given = per_cent(lack.given_pct);
    match lack.needed_pct {
        Some(needed) => format!("{} needed, {given} given", per_cent(needed)),
        None => format!("no slack will do, {given} given"),
    }
}

/// `12.40`; what is not known beside it.
pub(super) fn sum(sum: &Sum, number: impl Fn(f64) -> String, what: [&str; 2]) -> String {
    match sum.missing.len() {
        0 => number(sum.known),
        n => {
            let what = what[usize::from(n > 1)];
            if sum.known > 0.0 {
                format!("{} and {n} {what} {NOT_KNOWN}", number(sum.known))
            } else {
                NOT_KNOWN.to_owned()
            }
        }
    }
}

/// Pressure that is lost: `0.013 bar`.
pub(super) fn drop(bar: f64, unit: LengthUnit) -> String {
    Pressure::from_bar(bar).show_lost(unit)
}

pub(super) fn money(amount: f64) -> String {
    format!("{amount:.2}")
}

/// To a hundredth: what is told as the same differs by less.
pub(super) fn mass(kg: f64, unit: LengthUnit) -> String {
    format!("{:.2} {}", Derived::Mass.number(kg, unit), Derived::Mass.sign(unit))
}

/// `1 fault`, `3 faults`, `no fault`.
pub(super) fn count(n: usize, one: &str) -> String {
    match n {
        0 => format!("no {one}"),
        1 => format!("1 {one}"),
        n => format!("{n} {one}s"),
    }
}

/// `a`, `a and b`, `a, b and c`.
pub(super) fn joined(parts: &[String]) -> String {
    match parts {
        [] => String::new(),
        [one] => one.clone(),
        [some @ .., last] => format!("{} and {last}", some.join(", ")),
    }
}

/// `PTFE braid −6`.
pub(super) fn hose_kind(construction: &str, dash: u32) -> String {
    let construction = Construction::from_word(construction);
    format!("{} {}", construction.shown(), dash_text(dash))
}

/// `straight`, `45°`.
pub(super) fn angle(deg: f64) -> String {
    if deg > 0.0 { format!("{deg}\u{b0}") } else { "straight".to_owned() }
}

/// The words of a figure; of one that is not known why it is not.
pub(super) fn found<T>(found: &Found<T>, nothing: &str, say: impl Fn(&T) -> String) -> String {
    match found {
        Found::Known(value) => say(value),
        Found::Nothing => nothing.to_owned(),
        Found::NotKnown(_) => NOT_KNOWN.to_owned(),
    }
}
