//! What holds of every answer.

use std::time::Instant;

use glam::{DVec2, DVec3, dvec2, dvec3};
use proptest::prelude::*;

use super::fixture::{bay, large, scene_of, shifted};
use super::*;
use crate::app::canvas::camera::View;
use crate::engine::solve_run;
use crate::model::Bay;

const VIEWS: [View; 3] = View::ALL;

/// What a property needs of one request, owned.
struct Case {
    bay: Bay,
    scene: Scene,
    route: RouteBeside,
    moving: [Thing; 1],
    from: DVec3,
}

/// A corner of the small bay is dragged.
fn case(bay: Bay) -> Case {
    let scene = scene_of(&bay);
    let run = &bay.routings[0].runs[0];
    let solved = solve_run(&bay, run).unwrap();
    let route = RouteBeside::of(&bay, run, &solved, 0).unwrap();
    let moving = [Thing::Via { run: run.id.clone(), via: 0 }];
    let from = run.via[0].at();
    Case { bay, scene, route, moving, from }
}

impl Case {
    fn trial(&self) -> CutLengthTrial {
        CutLengthTrial::new(&self.bay, &self.bay.routings[0].runs[0], &self.moving[0]).unwrap()
    }

    fn request(&self, view: View, scale: f64, unit: LengthUnit, raw: DVec2) -> SnapRequest<'_> {
        SnapRequest {
            unit,
            moving: &self.moving,
            route: Some(&self.route),
            ..SnapRequest::moving(&self.scene, (view, scale), self.from, raw)
        }
    }
}

fn units() -> impl Strategy<Value = LengthUnit> {
    prop_oneof![Just(LengthUnit::Mm), Just(LengthUnit::Inch)]
}

fn raws() -> impl Strategy<Value = DVec2> {
    (-300.0..1300.0, -300.0..500.0).prop_map(|(x, y)| dvec2(x, y))
}

/// Where it lands without any cause.
fn fallback(request: &SnapRequest<'_>) -> DVec2 {
    dvec2(landed(request, 0, request.raw.x), landed(request, 1, request.raw.y))
}

fn flat(request: &SnapRequest<'_>, snapped: &Snapped) -> DVec2 {
    request.view.project(snapped.place)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn it_lands_within_reach_or_on_whole_steps(
        view in 0..3_usize, scale in 0.05..20.0_f64, unit in units(), raw in raws(),
    ) {
        let case = case(bay());
        let trial = case.trial();
        let length = |p: DVec3| trial.cut_length(p);
        let mut request = case.request(VIEWS[view], scale, unit, raw);
        request.cut_length = Some(&length);
        let snapped = snap(&request);
        let place = flat(&request, &snapped);
        prop_assert!(snapped.place.is_finite());
        let third = super::plane::third_axis(VIEWS[view]);
        prop_assert_eq!(snapped.place[third], case.from[third]);
        match snapped.causes.len() {
            0 => prop_assert_eq!(place, fallback(&request)),
            // The other coordinate may go by half a step along a slanted line.
            1 => {
                let most = request.mm(REACH).hypot(step_mm(unit)) + 1e-9;
                prop_assert!(place.distance(raw) <= most, "{} {}", place.distance(raw), most);
            }
            _ => {
                let most = request.mm(REACH) * std::f64::consts::SQRT_2 + 1e-9;
                prop_assert!(place.distance(raw) <= most, "{} {}", place.distance(raw), most);
            }
        }
        prop_assert!(snapped.causes.len() <= 2);
        for cause in &snapped.causes {
            prop_assert!(!cause.words.is_empty());
            prop_assert!(cause.guides.iter().flatten().all(|p| p.is_finite()));
        }
    }

    #[test]
    fn what_is_snapped_stays_there(
        view in 0..3_usize, scale in 0.05..20.0_f64, unit in units(), raw in raws(),
    ) {
        let case = case(bay());
        let trial = case.trial();
        let length = |p: DVec3| trial.cut_length(p);
        let mut request = case.request(VIEWS[view], scale, unit, raw);
        request.cut_length = Some(&length);
        let first = snap(&request);
        request.raw = flat(&request, &first);
        request.previous = Some(&first);
        let again = snap(&request);
        prop_assert!(again.place.distance(first.place) <= 1e-6, "{first:?} {again:?}");
        prop_assert_eq!(again.words(), first.words());
    }

    /// A pointer that trembles by less than half a point does not make it jump from one cause to another.
    /// (A whole cut length is left out: see [`super`].)
    #[test]
    fn it_does_not_jump_to_and_fro(
        view in 0..3_usize, scale in 0.1..5.0_f64, unit in units(), raw in raws(),
        turns in prop::collection::vec(0.0..std::f64::consts::TAU, 6),
    ) {
        let case = case(bay());
        let mut request = case.request(VIEWS[view], scale, unit, raw);
        request.half = dvec2(30.0, 12.0);
        let mut last = snap(&request);
        for turn in turns {
            request.raw = raw + DVec2::from_angle(turn) * (0.24 / scale);
            let next = snap(&SnapRequest { previous: Some(&last), ..request });
            // What held holds on; something may be caught besides.
            let keys: Vec<_> = next.causes.iter().map(|cause| cause.key).collect();
            for cause in &last.causes {
                prop_assert!(keys.contains(&cause.key), "{} then {}", last.words(), next.words());
            }
            last = next;
        }
    }

    #[test]
    fn typed_coordinates_are_untouched(
        view in 0..3_usize, scale in 0.05..20.0_f64, raw in raws(), typed in raws(), which in 0..3_u8,
    ) {
        let case = case(bay());
        let mut request = case.request(VIEWS[view], scale, LengthUnit::Mm, raw);
        request.fixed = [(which != 1).then_some(typed.x), (which != 0).then_some(typed.y)];
        let place = flat(&request, &snap(&request));
        for axis in 0..2 {
            if let Some(value) = request.fixed[axis] {
                prop_assert_eq!(place[axis], value);
            }
        }
    }

    #[test]
    fn it_does_not_depend_on_where_the_bay_stands(
        view in 0..3_usize, scale in 0.05..20.0_f64, raw in raws(),
        x in -3..4_i32, y in -3..4_i32, z in -3..4_i32,
    ) {
        // Whole grid steps at every zoom.
        let by = dvec3(f64::from(x), f64::from(y), f64::from(z)) * 10_000.0;
        let (here, there) = (case(bay()), case(shifted(&bay(), by)));
        let view = VIEWS[view];
        let a = snap(&here.request(view, scale, LengthUnit::Mm, raw));
        let b = snap(&there.request(view, scale, LengthUnit::Mm, raw + view.project(by)));
        prop_assert!((b.place - by).distance(a.place) < 1e-6, "{a:?} {b:?}");
        prop_assert_eq!(a.words(), b.words());
    }

    /// The reach is on the screen: twice the scale, half the distance in the bay.
    #[test]
    fn the_reach_is_in_points(scale in 0.1..20.0_f64, off in 0.0..12.0_f64) {
        let scene = super::fixture::only_ports(&[("filter", DVec3::ZERO, DVec3::Z)]);
        let raw = dvec2(off, 100.0) / scale;
        let snapped = snap(&SnapRequest::placing(&scene, (View::Plan, scale), 0.0, raw));
        let aligned = snapped.causes.iter().any(|cause| cause.kind == Kind::Align);
        // Close by the grid takes the same line or a nearer one.
        let takes = snapped.causes.iter().any(|cause| cause.kind == Kind::Grid);
        prop_assert!(aligned || takes || off > REACH - 1e-9);
        prop_assert!(!aligned || off <= REACH + 1e-9);
    }

    #[test]
    fn wild_requests_have_finite_answers(
        raw in (any::<f64>(), any::<f64>()), third in any::<f64>(), scale in any::<f64>(),
    ) {
        let case = case(bay());
        let mut request = case.request(View::Plan, scale, LengthUnit::Mm, dvec2(raw.0, raw.1));
        request.third = third;
        prop_assert!(!snap(&request).place.is_nan());
    }
}

/// 60 hoses and 200 obstacles well within a frame; generous, for a busy machine and no optimisation.
#[test]
fn a_large_bay_is_quick() {
    let case = case(large());
    assert_eq!((case.scene.hoses.len(), case.scene.obstacles.len()), (60, 200));
    let rounds = 200_u32;
    let best = (0..5)
        .map(|_| {
            let start = Instant::now();
            for k in 0..rounds {
                let raw = dvec2(2.7, 1.3) * f64::from(k);
                let request = case.request(View::Plan, 0.7, LengthUnit::Mm, raw);
                assert!(snap(&request).place.is_finite());
            }
            start.elapsed() / rounds
        })
        .min()
        .unwrap();
    assert!(best.as_micros() < 600, "{best:?} a snap");
}
