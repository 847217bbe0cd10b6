//! Issue 13, point 1: a hose beside the hot, moving or sharp part that its own port is on. Gaps and lengths by hand, and
//! over random bays against dense samples; sleeves; every position; what is printed. All figures invented.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

mod common;

use common::build::{OUTSIDE_MM, SOCKET_MM, bay, corner, elbow_end, port, run};
use glam::DVec3;
use hosewright::checks::{Finding, Severity, check};
use hosewright::engine::clearance::{NearOwnPort, TubeClearance};
use hosewright::engine::{RoutingSolution, RunSolution, solve_routing, solve_whole};
use hosewright::export::check_json;
use hosewright::model::{
    Bay, Motion, MovingGroup, Nature, Obstacle, RunEnd, Shape, Side, Sleeve, Via,
};
use hosewright::report::check::Report;
use hosewright::report::sheet::{Sheet, SheetInfo};
use proptest::prelude::*;

const NEAR: f64 = 1e-6;
const RADIUS: f64 = OUTSIDE_MM / 2.0;
/// What the housing asks for.
const MIN: f64 = 75.0;

fn housing(nature: Nature, shape: Shape) -> Obstacle {
    Obstacle {
        id: "housing".into(),
        name: "Turbine housing".into(),
        nature,
        min_clearance_mm: Some(MIN),
        group: None,
        shape,
        locked: None,
        extra: vec![],
    }
}

/// The face x = 0 of a plate.
fn plate() -> Shape {
    Shape::Box { min: DVec3::new(-50.0, -400.0, -400.0), max: DVec3::new(0.0, 400.0, 400.0) }
}

/// From a port on the housing at the origin, looking along X, to a port elsewhere.
fn from_housing(
    nature: Nature,
    shape: Shape,
    ends: [RunEnd; 2],
    to: [DVec3; 2],
    via: Vec<Via>,
) -> Bay {
    let mut a = port("a", DVec3::ZERO, DVec3::X);
    a.on = Some("housing".into());
    let [from, last] = ends;
    let mut bay = bay(vec![a, port("b", to[0], to[1])], run(from, last, via));
    bay.obstacles = vec![housing(nature, shape)];
    bay
}

/// Straight off the plate at right angles, 500 mm from seat to seat, both cut ends 20 mm from their seats.
fn off_the_plate(nature: Nature) -> Bay {
    let ends = ["a", "b"].map(|id| elbow_end(id, Some(60.0), 0.0, 0.0, (20.0, 0.0)));
    let to = [DVec3::new(500.0, 0.0, 0.0), DVec3::NEG_X];
    from_housing(nature, plate(), ends, to, vec![])
}

/// The bay of the issue: an elbow leads the hose along the housing, 20 mm from it, before it turns away.
fn along_the_housing(along_mm: f64) -> Bay {
    // An elbow of 90° at clock angle 0: the hose leaves upwards, its axis 26 mm from the face.
    let from = elbow_end("a", Some(200.0), 90.0, 0.0, (RADIUS + 20.0, 20.0));
    let to = elbow_end("b", Some(100.0), 0.0, 0.0, (20.0, 0.0));
    let at = [DVec3::new(500.0, 0.0, 20.0 + along_mm), DVec3::NEG_X];
    let via = vec![corner(RADIUS + 20.0, 0.0, 20.0 + along_mm)];
    let mut bay = from_housing(Nature::Hot, plate(), [from, to], at, via);
    bay.routings[0].runs[0].from.straight_mm = Some(along_mm / 2.0);
    bay
}

fn drawn(bay: &Bay) -> TubeClearance {
    solve_routing(bay, &bay.routings[0]).clearance.runs[0].clone()
}

fn whole(bay: &Bay) -> RoutingSolution {
    solve_whole(bay, &bay.routings[0])
}

fn found(bay: &Bay) -> Vec<Finding> {
    check(bay, &bay.routings[0], &whole(bay))
}

fn of_rule<'a>(found: &'a [Finding], rule: &str) -> Vec<&'a Finding> {
    found.iter().filter(|finding| finding.rule == rule).collect()
}

fn near_own_port(bay: &Bay) -> Finding {
    let found = found(bay);
    let own = of_rule(&found, "near-own-port");
    assert_eq!(own.len(), 1, "{found:#?}");
    own[0].clone()
}

fn is_near(a: f64, b: f64) -> bool {
    (a - b).abs() < NEAR
}

#[test]
fn the_gap_off_a_plate_grows_with_the_hose() {
    // At s from the cut end the axis is 20 + s from the face: 34 mm of gap at the socket mouth, 75 mm at s = 61.
    for nature in [Nature::Hot, Nature::Moving, Nature::Sharp] {
        let clearance = drawn(&off_the_plate(nature));
        let [stretch] = clearance.own_port[..] else { panic!("{clearance:?}") };
        let NearOwnPort { near, side, from_mm, to_mm } = stretch;
        assert!(is_near(near.gap_mm, 20.0 + SOCKET_MM - RADIUS) && is_near(near.at_mm, SOCKET_MM));
        assert!(is_near(from_mm, SOCKET_MM) && is_near(to_mm, MIN + RADIUS - 20.0), "{stretch:?}");
        assert_eq!(side, Side::A);
        // Beyond that it keeps its minimum, and that is what is judged.
        assert_eq!(clearance.too_near, []);
        assert!(is_near(clearance.tightest.unwrap().gap_mm, MIN));
        assert_eq!(clearance.shown(), Some(near));
    }
    let plain = drawn(&off_the_plate(Nature::Plain));
    assert!(plain.own_port.is_empty() && is_near(plain.shown().unwrap().gap_mm, MIN));
}

#[test]
fn a_hose_20_mm_from_the_turbine_housing_is_told_so() {
    let bay = along_the_housing(300.0);
    let clearance = drawn(&bay);
    assert!(is_near(clearance.shown().unwrap().gap_mm, 20.0), "{clearance:?}");
    // Upwards for 200 mm, then a fillet of 100 mm: the gap is 75 mm where the arc has gone 55 mm outwards, at
    // acos(1 − 0.55).
    let inside = 200.0 + 100.0 * 0.45_f64.acos() - SOCKET_MM;
    let stretch = clearance.own_port[0];
    assert!((stretch.to_mm - stretch.from_mm - inside).abs() < 1e-5, "{stretch:?}");
    let all = found(&bay);
    assert!(
        of_rule(&all, "clearance").is_empty() && of_rule(&all, "installed-clearance").is_empty()
    );
    // A springy hose does not make so sharp a turn: it lies a little nearer still.
    let own = near_own_port(&bay);
    assert_eq!((own.severity, own.other.as_deref()), (Severity::Warn, Some("housing")));
    assert!((18.0..19.0).contains(&own.value.unwrap()) && own.limit == Some(MIN), "{own:?}");
    assert!(
        own.message.starts_with(
            "Clearance to Turbine housing 18.5 mm as installed, minimum 75 mm (hot); "
        )
    );
    assert!(
        own.message.ends_with("; 273.2 mm of hose past the socket of end A below the minimum"),
        "{}",
        own.message
    );
    assert!(own.hint.contains("sleeve rated for hot parts") && own.hint.contains("shield"));
}

#[test]
fn never_far_enough_the_whole_hose_past_the_socket_is_told() {
    let mut bay = off_the_plate(Nature::Hot);
    bay.obstacles[0].min_clearance_mm = Some(600.0);
    let clearance = drawn(&bay);
    let stretch = clearance.own_port[0];
    // The other end is on nothing: its socket counts.
    assert!(is_near(stretch.from_mm, SOCKET_MM) && is_near(stretch.to_mm, 460.0), "{stretch:?}");
    assert!(clearance.too_near.is_empty() && clearance.tightest.is_none());
    assert_eq!(near_own_port(&bay).severity, Severity::Warn);
    // With the other end on it too, as far as its mouth.
    bay.ports[1].on = Some("housing".into());
    let clearance = drawn(&bay);
    let [stretch] = clearance.own_port[..] else { panic!("{clearance:?}") };
    assert!(is_near(stretch.to_mm, 440.0), "{stretch:?}");
}

#[test]
fn each_end_has_its_own_stretch() {
    let mut bay = off_the_plate(Nature::Sharp);
    let Shape::Box { min, max } = plate() else { unreachable!() };
    // A slot: the second face is at the other seat.
    bay.ports[1].on = Some("housing".into());
    bay.obstacles[0].shape = Shape::Box { min, max };
    bay.ports[1].at = DVec3::new(0.0, 300.0, 0.0);
    bay.ports[1].toward = DVec3::X;
    bay.routings[0].runs[0].from.straight_mm = Some(200.0);
    bay.routings[0].runs[0].to.straight_mm = Some(200.0);
    let clearance = drawn(&bay);
    let [a, b] = clearance.own_port[..] else { panic!("{clearance:?}") };
    assert_eq!((a.side, b.side), (Side::A, Side::B));
    assert!(is_near(a.to_mm - a.from_mm, 41.0) && is_near(b.to_mm - b.from_mm, 41.0));
    assert!(is_near(a.near.gap_mm, 34.0) && is_near(b.near.gap_mm, 34.0));
    assert_eq!(of_rule(&found(&bay), "near-own-port").len(), 2);
}

#[test]
fn cutting_in_and_coming_back_are_faults_as_ever() {
    // The elbow leads the hose along the face, its axis 4 mm from it.
    let mut bay = along_the_housing(300.0);
    bay.routings[0].runs[0].from.along_mm = Some(4.0);
    bay.routings[0].runs[0].via = vec![corner(4.0, 0.0, 320.0)];
    let all = found(&bay);
    let clearance = of_rule(&all, "clearance");
    assert!(is_near(clearance[0].value.unwrap(), 4.0 - RADIUS), "{all:#?}");
    assert_eq!(clearance[0].severity, Severity::Fail);
    // Away to 300 mm and back to 40 mm from the face: 34 mm of gap beyond the place where 75 was reached.
    let mut bay = off_the_plate(Nature::Hot);
    bay.routings[0].runs[0].via = vec![
        corner(300.0, 0.0, 0.0),
        corner(300.0, 0.0, 250.0),
        corner(40.0, 0.0, 250.0),
        corner(40.0, 0.0, 600.0),
    ];
    bay.routings[0].runs[0].radius_mm = Some(10.0);
    bay.obstacles[0].shape =
        Shape::Box { min: DVec3::splat(-400.0), max: DVec3::new(0.0, 400.0, 600.0) };
    let clearance = drawn(&bay);
    assert!(is_near(clearance.too_near[0].gap_mm, 34.0), "{clearance:?}");
    assert!(is_near(clearance.own_port[0].near.gap_mm, 34.0));
    assert_eq!(of_rule(&found(&bay), "clearance").len(), 1);
    assert_eq!(of_rule(&found(&bay), "near-own-port").len(), 1);
}

#[test]
fn the_worst_of_drawn_installed_and_every_position_is_told_and_named() {
    // The plate comes 10 mm nearer when the engine moves; the port does not.
    let mut bay = off_the_plate(Nature::Hot);
    assert!(near_own_port(&bay).message.contains(" as drawn, minimum "));
    bay.groups = vec![MovingGroup {
        id: "engine".into(),
        name: "Engine".into(),
        moves: vec![Motion::Slide { from: -5.0 * DVec3::X, to: 10.0 * DVec3::X, extra: vec![] }],
        extra: vec![],
    }];
    bay.obstacles[0].group = Some("engine".into());
    let own = near_own_port(&bay);
    assert!(own.message.starts_with("Engine "), "{}", own.message);
    assert!((own.value.unwrap() - 24.0).abs() < 1e-3, "{own:?}");
    // Riding together they stay as near: nothing but the drawing is named.
    bay.ports[0].group = Some("engine".into());
    assert!(near_own_port(&bay).message.contains(" as drawn, minimum "));
    // Cut with slack a hose along the housing bows towards it.
    let mut bay = along_the_housing(300.0);
    bay.routings[0].runs[0].slack_pct = Some(4.0);
    let gap = |clearance: &TubeClearance| clearance.own_port[0].near.gap_mm;
    let solution = whole(&bay);
    let installed = gap(&solution.lay_of(0).unwrap().clearance);
    let as_drawn = gap(&solution.clearance.runs[0]);
    assert!(installed < as_drawn - 0.5, "{installed} {as_drawn}");
    assert!(near_own_port(&bay).message.contains(" as installed, minimum "));
}

fn sleeve(from_mm: Option<f64>, to_mm: Option<f64>, rated_for: &[Nature]) -> Sleeve {
    let (name, rated_for) = ("Fire sleeve".into(), rated_for.to_vec());
    Sleeve { name, from_mm, to_mm, rated_for, ..Sleeve::default() }
}

#[test]
fn a_sleeve_rated_for_it_makes_it_a_note() {
    let with = |sleeves: Vec<Sleeve>| {
        let mut bay = off_the_plate(Nature::Hot);
        bay.routings[0].runs[0].sleeves = sleeves;
        near_own_port(&bay)
    };
    let note = with(vec![sleeve(None, None, &[Nature::Hot])]);
    assert_eq!(note.severity, Severity::Note);
    assert!(
        note.message.ends_with(", under Fire sleeve (rated for hot parts)")
            && is_near(note.value.unwrap(), 34.0)
    );
    assert!(note.hint.contains("NAVEDTRA 14018"), "{}", note.hint);
    // The stretch is 20 to 61 mm; two sleeves may share it.
    let both =
        [sleeve(None, Some(45.0), &[Nature::Hot]), sleeve(Some(40.0), Some(61.0), &[Nature::Hot])];
    assert_eq!(with(both.to_vec()).severity, Severity::Note);
    for (sleeves, bare) in [
        (vec![], "41 mm of hose past the socket of end A below the minimum"),
        (vec![sleeve(None, None, &[])], "below the minimum"),
        (vec![sleeve(None, None, &[Nature::Sharp])], "below the minimum"),
        (
            vec![sleeve(Some(30.0), Some(51.0), &[Nature::Hot])],
            "20 mm of it without a rated sleeve",
        ),
    ] {
        let warning = with(sleeves);
        assert_eq!(warning.severity, Severity::Warn);
        assert!(warning.message.contains(bare), "{}", warning.message);
        assert!(warning.hint.contains("from 20 mm to 61 mm from cut end A"), "{}", warning.hint);
    }
    // The stretch that the hint names is enough.
    assert_eq!(with(vec![sleeve(Some(20.0), Some(61.0), &[Nature::Hot])]).severity, Severity::Note);
}

#[test]
fn a_sleeve_never_excuses_a_fault() {
    let mut bay = off_the_plate(Nature::Hot);
    bay.ports[0].on = None;
    bay.routings[0].runs[0].sleeves = vec![sleeve(None, None, &[Nature::Hot])];
    let all = found(&bay);
    assert_eq!(of_rule(&all, "clearance")[0].severity, Severity::Fail);
    assert!(of_rule(&all, "near-own-port").is_empty());
}

#[test]
fn report_sheet_and_comparison_show_the_real_gap() {
    let mut bay = off_the_plate(Nature::Hot);
    bay.routings[0].runs[0].sleeves = vec![sleeve(Some(24.0), Some(100.0), &[Nature::Hot])];
    let answer = common::answer(&bay);
    let report: serde_json::Value =
        serde_json::from_str(&check_json(&Report::new(&answer))).unwrap();
    let run = &report["runs"][0];
    for clearance in
        [&run["clearance"], &run["installed"]["clearance"], &run["positions"][0]["clearance"]]
    {
        assert!((clearance["gap_mm"].as_f64().unwrap() - 34.0).abs() < 1e-6, "{clearance}");
        assert!((clearance["at_mm"].as_f64().unwrap() - SOCKET_MM).abs() < 1e-6, "{clearance}");
        assert_eq!(clearance["min_clearance_mm"], MIN);
    }
    let answers = answer.figures().runs[0].answers.as_ref().unwrap();
    for gap in [&answers.gap, &answers.installed_gap, &answers.position_gap] {
        assert!((gap.known().unwrap().mm - 34.0).abs() < 1e-6, "{gap:?}");
    }
    let sheet = Sheet::new(&answer, SheetInfo::default());
    let hose = &sheet.hoses[0];
    assert!((hose.figures.clearance.as_ref().unwrap().gap_mm - 34.0).abs() < 1e-6);
    assert!(
        hose.findings
            .iter()
            .any(|line| line.rule == "near-own-port" && line.severity == Severity::Warn)
    );
    let fact = hose.essentials.iter().find(|fact| fact.label == "sleeve").unwrap();
    assert_eq!(fact.value, "Fire sleeve, from 24 mm to 100 mm from cut end A");
    assert!(fact.remark.contains("rated for hot parts") && fact.remark.contains("NAVEDTRA 14018"));
    let step = hose.steps.iter().position(|step| step.contains("slide on Fire sleeve")).unwrap();
    let nipple = hose.steps.iter().position(|step| step.starts_with("Nipple")).unwrap();
    assert!(step < nipple, "{:?}", hose.steps);
}

/// Signed distance, written apart from the program's own.
fn distance(shape: &Shape, p: DVec3) -> f64 {
    match shape {
        Shape::Box { min, max } => {
            let q = (p - 0.5 * (*min + *max)).abs() - 0.5 * (*max - *min);
            q.max(DVec3::ZERO).length() + q.max_element().min(0.0)
        }
        Shape::Cylinder { from, to, radius } => {
            let axis = (*to - *from).normalize();
            let along = (p - *from).dot(axis);
            let out = (p - *from - along * axis).length() - radius;
            let past = (along - 0.5 * from.distance(*to)).abs() - 0.5 * from.distance(*to);
            out.max(0.0).hypot(past.max(0.0)) + out.max(past).min(0.0)
        }
        Shape::Sphere { at, radius } => p.distance(*at) - radius,
        Shape::Mesh { .. } => unreachable!("none here"),
    }
}

fn shapes() -> impl Strategy<Value = Shape> {
    let at = || (-60.0..60.0, -60.0..60.0, -60.0..60.0).prop_map(|(x, y, z)| DVec3::new(x, y, z));
    let size = || 10.0..70.0;
    prop_oneof![
        (at(), size(), size(), size()).prop_map(|(at, x, y, z)| {
            let half = DVec3::new(x, y, z);
            Shape::Box { min: at - half, max: at + half }
        }),
        (at(), at(), size()).prop_map(|(from, to, radius)| {
            Shape::Cylinder { from, to: to + DVec3::new(0.0, 0.0, 121.0), radius }
        }),
        (at(), size()).prop_map(|(at, radius)| Shape::Sphere { at, radius }),
    ]
}

/// Gaps at dense samples from the socket mouth of A to that of B, where B is on it too, else to the end.
fn samples(shape: &Shape, solved: &RunSolution, both: bool) -> Vec<(f64, f64)> {
    let to = if both { solved.centreline_mm - SOCKET_MM } else { solved.centreline_mm };
    let count = 4000;
    let at = |k: u32| SOCKET_MM + (to - SOCKET_MM) * f64::from(k) / f64::from(count);
    let gap = |s: f64| distance(shape, solved.centre_line.point_at(s)) - RADIUS;
    (0..=count).map(|k| (at(k), gap(at(k)))).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn the_gap_told_is_the_least_from_the_mouth_on(
        shape in shapes(),
        nature in prop::sample::select(vec![Nature::Hot, Nature::Moving, Nature::Sharp]),
        seat in (60.0..160.0, -60.0..60.0, -60.0..60.0),
        via in prop::collection::vec((-250.0..400.0, -250.0..250.0, -250.0..250.0), 0..4),
        min_clearance in 1.0..150.0,
        both in any::<bool>(),
    ) {
        let a = port("a", DVec3::from(seat), DVec3::X);
        let b = port("b", DVec3::new(500.0, 60.0, -20.0), DVec3::NEG_X);
        let mut ports = vec![a, b];
        ports[0].on = Some("housing".into());
        ports[1].on = both.then(|| "housing".into());
        let [from, to] = ["a", "b"].map(|id| elbow_end(id, Some(60.0), 0.0, 0.0, (20.0, 0.0)));
        let via = via.into_iter().map(|(x, y, z)| corner(x, y, z)).collect();
        let mut bay = bay(ports, run(from, to, via));
        bay.routings[0].runs[0].radius_mm = Some(40.0);
        let obstacle = Obstacle { min_clearance_mm: Some(min_clearance), ..housing(nature, shape.clone()) };
        bay.obstacles = vec![obstacle];
        let solution = solve_routing(&bay, &bay.routings[0]);
        let (solved, clearance) = (solution.run(0).unwrap(), &solution.clearance.runs[0]);
        let shown = clearance.shown().unwrap();
        let samples = samples(&shape, solved, both);
        let least = samples.iter().map(|(_, gap)| *gap).fold(f64::INFINITY, f64::min);
        prop_assert!(shown.gap_mm <= least + 1e-4, "{} told, {least} sampled", shown.gap_mm);
        // What is told is there; between two samples it is no less than half a step below.
        let there = distance(&shape, solved.centre_line.point_at(shown.at_mm)) - RADIUS;
        prop_assert!((there - shown.gap_mm).abs() < 1e-3, "{there} {shown:?}");
        let step = samples[1].0 - samples[0].0;
        let is_in_socket = shown.gap_mm < 0.0;
        prop_assert!(is_in_socket || shown.gap_mm >= least - 0.5 * step - 1e-4);
        for stretch in &clearance.own_port {
            let own = samples.iter().filter(|(s, _)| (stretch.from_mm..stretch.to_mm - 1e-3).contains(s));
            for (s, gap) in own {
                prop_assert!(*gap < min_clearance + 1e-4, "{gap} at {s}: {stretch:?}");
            }
            // It ends where the minimum is reached, or at the end of the hose.
            let end = match stretch.side { Side::A => stretch.to_mm, Side::B => stretch.from_mm };
            let gap = distance(&shape, solved.centre_line.point_at(end)) - RADIUS;
            let is_end = end >= samples.last().unwrap().0 - 1e-6;
            prop_assert!(is_end || gap > min_clearance - 1e-3, "{gap} {stretch:?}");
        }
        // Beyond the stretches the minimum is judged as ever.
        let apart = |s: f64| clearance.own_port.iter().any(|own| (own.from_mm - 1e-3..=own.to_mm + 1e-3).contains(&s));
        let judged = samples.iter().filter(|(s, _)| !apart(*s)).map(|(_, gap)| *gap).fold(f64::INFINITY, f64::min);
        if judged < min_clearance - 1e-3 {
            prop_assert!(clearance.too_near.first().is_some_and(|near| near.gap_mm <= judged + 1e-4));
        }
        for near in &clearance.too_near {
            prop_assert!(near.gap_mm < 0.0 || !apart(near.at_mm), "{near:?}");
        }
    }
}
