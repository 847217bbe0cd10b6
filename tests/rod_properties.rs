//! The installed shape of random spans: it keeps ends, directions and length, its own first integral, and is
//! never wrong in silence.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

mod common;

use common::xorshift::Xorshift;
use glam::DVec3;
use hosewright::geom::rod::{RodError, RodForm, RodSeed, RodShape, RodSolver, RodSpan};

/// The same spans in every run.
struct Dice(Xorshift);

impl Dice {
    /// In [0, 1).
    fn roll(&mut self) -> f64 {
        self.0.share()
    }

    fn direction(&mut self) -> DVec3 {
        loop {
            let v = 2.0 * DVec3::new(self.roll(), self.roll(), self.roll()) - 1.0;
            if (0.1..1.0).contains(&v.length()) {
                return v.normalize();
            }
        }
    }

    /// Any clamp directions, the chord a share of the length between `least` and `most`.
    fn span(&mut self, least: f64, most: f64) -> RodSpan {
        let length = 200.0 + 800.0 * self.roll();
        let chord = length * (least + (most - least) * self.roll());
        let from = 500.0 * self.direction();
        RodSpan {
            from,
            from_direction: self.direction(),
            to: from + chord * self.direction(),
            to_direction: self.direction(),
            length,
        }
    }

    /// Turned by anything between 1e-12 and 1 rad, about.
    fn shaken(&mut self, v: DVec3) -> DVec3 {
        let by = 10.0_f64.powf(-12.0 * self.roll());
        v + by * self.direction()
    }

    /// The awkward ones: nearly taut, closed, in line, nearly in line, both clamps back to front,
    /// sizes from 10 mm to 10 m.
    fn awkward(&mut self, kind: u32) -> RodSpan {
        let length = 10.0_f64.powf(1.0 + 3.0 * self.roll());
        let share = match kind % 4 {
            0 => 1.0 - 10.0_f64.powf(-1.0 - 6.0 * self.roll()),
            1 => self.roll(),
            2 => 1e-6 * self.roll(),
            _ => 0.5 + 0.5 * self.roll(),
        };
        let d = self.direction();
        let (from_direction, to_direction) = match (kind / 4) % 5 {
            0 => (d, d),
            1 => (self.shaken(d), self.shaken(d)),
            2 => (self.shaken(-d), self.shaken(-d)),
            3 => {
                let across = d.cross(self.direction());
                (across, -across)
            }
            _ => (self.direction(), self.direction()),
        };
        RodSpan { from: DVec3::ZERO, from_direction, to: share * length * d, to_direction, length }
    }
}

/// What every answer must keep.
fn is_sound(span: &RodSpan, shape: &RodShape) {
    let last = shape.points.len() - 1;
    assert!(shape.points.iter().chain(&shape.tangents).all(|v| v.is_finite()), "{span:?}");
    assert!(shape.curvatures.iter().all(|k| k.is_finite() && *k >= 0.0), "{span:?}");
    assert!(shape.energy.is_finite() && shape.energy >= 0.0, "{span:?}");
    assert!(shape.points[0] == span.from && shape.points[last] == span.to, "{span:?}");
    let ways =
        [(shape.tangents[0], span.from_direction), (shape.tangents[last], span.to_direction)];
    for (got, wanted) in ways {
        assert!(got.cross(wanted.normalize()).length() < 1e-6 && got.dot(wanted) > 0.0, "{span:?}");
    }
    assert!((shape.stations[last] / span.length - 1.0).abs() < 1e-9, "{span:?}");
    assert!(shape.stations.windows(2).all(|pair| pair[1] >= pair[0]), "{span:?}");
    assert!(shape.tangents.iter().all(|t| (t.length() - 1.0).abs() < 1e-9), "{span:?}");
    assert!(shape.error.energy <= 2e-3 && shape.error.radius <= 5e-3, "{span:?}");
    // A curve is no shorter than the chords of its nodes.
    let chords: f64 = shape.points.windows(2).map(|pair| pair[0].distance(pair[1])).sum();
    assert!(chords <= span.length * (1.0 + 1e-6), "{span:?}");
}

/// The energy is that of the curvatures at the nodes, and `κ²/2 + F·t` is the same at all of them.
fn keeps_its_integral(span: &RodSpan, shape: &RodShape) {
    let pieces = shape.stations.windows(2).zip(shape.curvatures.windows(2));
    let sum: f64 = pieces.map(|(s, k)| 0.5 * (k[0] * k[0] + k[1] * k[1]) * (s[1] - s[0])).sum();
    assert!((sum / shape.energy - 1.0).abs() < 0.02, "{span:?}: {sum} and {}", shape.energy);
    let turned: Vec<f64> = shape.tangents.windows(2).map(|t| t[0].angle_between(t[1])).collect();
    for (i, angle) in turned.iter().enumerate() {
        let step = shape.stations[i + 1] - shape.stations[i];
        let mean = 0.5 * (shape.curvatures[i] + shape.curvatures[i + 1]);
        let off = (angle / step - mean).abs();
        assert!(off < 0.06 * shape.peak_curvature, "{span:?}: at node {i}: {off}");
    }
}

#[test]
fn two_thousand_random_spans_all_have_a_lie() {
    let (mut dice, mut solver) = (Dice(Xorshift(0x9E37_79B9_7F4A_7C15)), RodSolver::default());
    for _ in 0..2000 {
        let span = dice.span(0.1, 0.97);
        let shape = solver.solve(&span, RodSeed::Plain, DVec3::NEG_Z);
        let shape = shape.unwrap_or_else(|why| panic!("{why}: {span:?}"));
        is_sound(&span, shape);
        keeps_its_integral(&span, shape);
    }
}

#[test]
fn nearly_taut_spans_down_to_a_thousandth_of_slack_all_have_a_lie() {
    let (mut dice, mut solver) = (Dice(Xorshift(77)), RodSolver::default());
    let mut by_closed_form = 0;
    for k in 0..1000 {
        let slack = if k % 2 == 0 { 0.001 } else { 0.03 * dice.roll() + 0.001 };
        let span = dice.span(1.0 - slack, 1.0 - slack);
        let shape = solver.solve(&span, RodSeed::Plain, DVec3::NEG_Z);
        let shape = shape.unwrap_or_else(|why| panic!("{why}: {span:?}"));
        is_sound(&span, shape);
        by_closed_form += u32::from(shape.how.form == RodForm::Taut);
    }
    assert!(by_closed_form > 500, "{by_closed_form}");
}

#[test]
fn what_was_solved_before_does_not_change_the_answer() {
    let (mut dice, mut solver) = (Dice(Xorshift(5)), RodSolver::default());
    for _ in 0..100 {
        let span = dice.span(0.1, 0.99);
        let used = solver.solve(&span, RodSeed::Plain, DVec3::NEG_Z).unwrap();
        let mut fresh = RodSolver::default();
        assert_eq!(used, fresh.solve(&span, RodSeed::Plain, DVec3::NEG_Z).unwrap());
    }
}

#[test]
fn a_soak_of_ten_thousand_awkward_spans() {
    const COUNT: u32 = 10_000;
    let (mut dice, mut solver) = (Dice(Xorshift(4242)), RodSolver::default());
    let (mut not_converged, mut backwards, mut short) = (0, 0, 0);
    for kind in 0..COUNT {
        let span = dice.awkward(kind);
        match solver.solve(&span, RodSeed::Plain, DVec3::NEG_Z) {
            Ok(shape) => is_sound(&span, shape),
            Err(RodError::TooShort { .. }) => {
                let chord = span.from.distance(span.to);
                assert!(chord > span.length * (1.0 - 1e-8), "{span:?}");
                short += 1;
            }
            Err(RodError::NotConverged | RodError::Fold) => {
                not_converged += 1;
                // Clamps that point straight back along a line hardly longer than its chord.
                let chord = span.to - span.from;
                let back = |way: DVec3| way.angle_between(-chord) < 0.2;
                backwards += u32::from(back(span.from_direction) || back(span.to_direction));
            }
            Err(why @ RodError::Input) => panic!("{why}: {span:?}"),
        }
    }
    let share = 100.0 * f64::from(not_converged) / f64::from(COUNT);
    println!(
        "{share:.2} % of {COUNT} awkward spans had no installed shape found, {backwards} of {not_converged} with \
         a clamp that points straight back; {short} were too short"
    );
    assert!(share < 5.0, "{share} %");
    assert!(not_converged - backwards <= COUNT / 500, "{not_converged} {backwards}");
}
