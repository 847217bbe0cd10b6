//! The clock angle between two elbows, in words and as a dial.

use glam::DVec3;

use crate::drawing::dial;
use crate::engine::{EndSolution, RunSolution};
use crate::model::tolerance;
use crate::units::Angle;

use super::Clock;

/// Angles below this from 0 or 360 are one direction to any bench.
const SAME_WAY_DEG: f64 = 0.05;

pub(super) fn clock(run: &RunSolution) -> Clock {
    if let Some(deg) = run.clock_between_deg {
        return between(deg, run.overall_mm);
    }
    let (a, b) = (run.from.end.is_elbow(), run.to.end.is_elbow());
    let (short, words) = match (a, b) {
        (false, false) => ("straight ends", "Both ends are straight: none to set.".to_owned()),
        (true, true) => (
            "not defined",
            "Both ends are elbows, but the hose is drawn straight back on itself: no clock angle \
             can be told. Fix the route."
                .to_owned(),
        ),
        _ => ("one elbow only", one_elbow(if a { ("A", &run.from) } else { ("B", &run.to) })),
    };
    Clock {
        between_deg: None,
        short: short.to_owned(),
        words,
        within: String::new(),
        source: String::new(),
        dial: None,
    }
}

fn one_elbow((letter, end): (&str, &EndSolution)) -> String {
    let way = direction_in_words(end.frame.direction);
    format!(
        "One elbow only: none to set on the bench. At its port turn elbow {letter} so that the hose leaves it {way}."
    )
}

/// A share of a direction below this is not named: less than 20° off an axis.
const LEAST_SHARE: f64 = 0.34;

/// A direction as a builder says it, the most of it first: `to the left and up` (X forward, Y to the left, Z up).
pub fn direction_in_words(direction: DVec3) -> String {
    let named = [
        (direction.x, "forward", "to the rear"),
        (direction.y, "to the left", "to the right"),
        (direction.z, "up", "down"),
    ];
    let mut named: Vec<(f64, &str)> = named
        .into_iter()
        .map(|(share, plus, minus)| (share.abs(), if share < 0.0 { minus } else { plus }))
        .filter(|(share, _)| *share > LEAST_SHARE)
        .collect();
    named.sort_by(|a, b| b.0.total_cmp(&a.0));
    named.iter().map(|(_, word)| *word).collect::<Vec<_>>().join(" and ")
}

fn between(deg: f64, overall_mm: f64) -> Clock {
    let short = if is_same_way(deg) { "0°".to_owned() } else { Angle::from_deg(deg).show() };
    let words = if is_same_way(deg) {
        "Seen from A along the hose, both elbows point the same way: A at 6 o’clock, B at 6 o’clock."
            .to_owned()
    } else {
        format!(
            "Seen from A along the hose, A’s elbow down at 6 o’clock: B’s elbow {short} \
             counter-clockwise from it, {}.",
            on_the_clock(deg)
        )
    };
    let tight = Angle::from_deg(tolerance::clock_tolerance_deg(overall_mm)).show();
    let army = Angle::from_deg(tolerance::clock_tolerance_army_deg(overall_mm)).show();
    Clock {
        between_deg: Some(deg),
        within: format!("±{tight} (Army ±{army})"),
        source: format!("{}; {}", tolerance::CLOCK, tolerance::CLOCK_ARMY),
        dial: Some(dial(deg, &words)),
        short,
        words,
    }
}

fn is_same_way(deg: f64) -> bool {
    !(SAME_WAY_DEG..=360.0 - SAME_WAY_DEG).contains(&deg)
}

/// Where a hand points that stands `deg` counter-clockwise from 6 o'clock, to the half hour.
pub fn on_the_clock(deg: f64) -> String {
    let halves = ((6.0 - deg / 30.0).rem_euclid(12.0) * 2.0).round() as u32 % 24;
    let hour = match halves / 2 {
        0 => 12,
        hour => hour,
    };
    if halves.is_multiple_of(2) {
        format!("about {hour} o’clock")
    } else {
        format!("about half past {hour}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_direction_is_named_by_its_axes_the_most_of_it_first() {
        let words = |x: f64, y: f64, z: f64| direction_in_words(DVec3::new(x, y, z).normalize());
        assert_eq!(words(0.0, 1.0, 0.0), "to the left");
        assert_eq!(words(-1.0, 0.05, -0.1), "to the rear");
        assert_eq!(words(0.6, -0.5, 0.1), "forward and to the right");
        assert_eq!(words(0.2, 0.5, 0.8), "up and to the left");
        assert_eq!(words(1.0, 1.0, -1.0).matches(" and ").count(), 2);
    }

    #[test]
    fn counter_clockwise_from_six() {
        for (deg, words) in [
            (90.0, "about 3 o’clock"),
            (180.0, "about 12 o’clock"),
            (270.0, "about 9 o’clock"),
            (42.1, "about half past 4"),
            (359.0, "about 6 o’clock"),
            (165.0, "about half past 12"),
        ] {
            assert_eq!(on_the_clock(deg), words, "{deg}");
        }
    }

    #[test]
    fn the_tolerance_follows_the_length() {
        assert!(between(42.0, 600.0).within.starts_with("±3°"));
        assert!(between(42.0, 700.0).within.starts_with("±5°"));
    }
}
