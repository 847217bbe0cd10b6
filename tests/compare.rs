//! Routings side by side: the figures by hand, what is told of them, and what is not.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where it stands")]

mod common;

use common::build::{OUTSIDE_MM, bay, clamp, corner, hose, port, run, straight_end};
use glam::DVec3;
use std::sync::Arc;

use hosewright::engine::compare::{Against, Found, RoutingFigures};
use hosewright::engine::solve_whole;
use hosewright::export::Paper;
use hosewright::export::{CompareFormat, compare_json};
use hosewright::model::{
    Bay, Fluid, Motion, MovingGroup, Nature, Obstacle, Routing, Run, Shape, Via,
};
use hosewright::report::answer::Answer;
use hosewright::report::compare::{Cell, Comparison, Row};
use hosewright::report::sheet::SheetInfo;
use proptest::prelude::*;

const WALL_AT_MM: f64 = 60.0;
const MIN_CLEARANCE_MM: f64 = 75.0;

/// A hose from port to port, 600 mm apart.
fn one_run(via: Vec<Via>) -> Run {
    let mut one = run(straight_end("a", None), straight_end("b", None), via);
    one.slack_pct = Some(0.0);
    one
}

/// Round a corner this far out.
fn out(by_mm: f64) -> Run {
    one_run(vec![corner(300.0, by_mm, 0.0)])
}

fn routing(id: &str, name: &str, runs: Vec<Run>) -> Routing {
    Routing { id: id.into(), name: name.into(), runs, ..Routing::default() }
}

/// A hot wall beside the straight way from port to port.
fn wall() -> Obstacle {
    Obstacle {
        id: "manifold".into(),
        name: "Manifold".into(),
        nature: Nature::Hot,
        min_clearance_mm: Some(MIN_CLEARANCE_MM),
        group: None,
        shape: Shape::Box {
            min: DVec3::new(280.0, -200.0, -100.0),
            max: DVec3::new(320.0, -WALL_AT_MM, 100.0),
        },
        locked: None,
        extra: vec![],
    }
}

fn with_routings(routings: Vec<Routing>) -> Bay {
    let ports =
        vec![port("a", DVec3::ZERO, DVec3::X), port("b", DVec3::new(600.0, 0.0, 0.0), -DVec3::X)];
    let mut all = bay(ports, one_run(vec![]));
    all.obstacles = vec![wall()];
    all.routings = routings;
    all
}

/// Straight past the wall, too near to it, or well out of its way.
fn under_and_over() -> Bay {
    with_routings(vec![
        routing("under", "Under: straight past it", vec![one_run(vec![])]),
        routing("over", "Over: out of its way", vec![out(250.0)]),
    ])
}

fn compared_in(bay: &Bay, places: &[usize]) -> Comparison {
    let shared = Arc::new(bay.clone());
    let answer = |place: &usize| Answer::of(Arc::clone(&shared), *place).expect("there");
    let answers: Vec<Arc<Answer>> = places.iter().map(answer).map(Arc::new).collect();
    Comparison::new(bay, &answers, SheetInfo::default())
}

fn compared(bay: &Bay) -> Comparison {
    compared_in(bay, &(0..bay.routings.len()).collect::<Vec<_>>())
}

fn row<'a>(comparison: &'a Comparison, id: &str) -> &'a Row {
    comparison.rows.iter().find(|row| row.id == id).expect(id)
}

fn words(comparison: &Comparison, id: &str) -> Vec<&'static str> {
    row(comparison, id).cells.iter().map(|cell| cell.word).collect()
}

fn figures(bay: &Bay, place: usize) -> RoutingFigures {
    let routing = &bay.routings[place];
    RoutingFigures::of(bay, routing, &solve_whole(bay, routing))
}

#[test]
fn the_figures_by_hand() {
    let bay = under_and_over();
    let under = figures(&bay, 0);
    // 600 mm from seat to seat, ends of no set-back, no slack.
    assert!((under.hose_mm.unwrap() - 600.0).abs() < 1e-9);
    let (_, gap) = under.worst(|run| &run.gap, Against::spare_mm).known().cloned().unwrap();
    assert!((gap.mm - (WALL_AT_MM - OUTSIDE_MM / 2.0)).abs() < 1e-4, "{gap:?}");
    assert_eq!((gap.limit_mm, gap.obstacle), (MIN_CLEARANCE_MM, Some(0)));
    assert_eq!(under.worst(|run| &run.radius, Against::share), Found::Nothing);
    // One span, from socket mouth to socket mouth.
    let (_, span, from) = under.longest_span().known().copied().unwrap();
    assert!((span - 560.0).abs() < 1e-9 && (from - 20.0).abs() < 1e-9);
    // 0.2 kg a metre; both ends are measured and have no mass.
    assert!((under.mass_kg.known - 0.12).abs() < 1e-12);
    assert_eq!(under.mass_kg.missing.len(), 1);
    assert_eq!(under.mass_kg.missing[0].amount, 2.0);
    assert_eq!((under.hoses.len(), under.hoses[0].pieces, under.clamps), (1, 1, 0));
}

#[test]
fn the_trade_off_is_told_with_its_figures() {
    let bay = under_and_over();
    let told = compared(&bay).sentence;
    let [under, over] = [0, 1].map(|place| figures(&bay, place));
    let dearer = over.cost.known - under.cost.known;
    let longer = over.hose_mm.unwrap() - 600.0;
    assert!(dearer > 0.1 && longer > 20.0);
    assert!(told.starts_with(&format!("Over costs {dearer:.2} more")), "{told}");
    assert!(told.contains(&format!("takes {longer} mm more hose, but ")), "{told}");
    assert!(told.contains("off Manifold (minimum 75 mm)"), "{told}");
    assert!(told.contains("where Under keeps 54 mm"), "{told}");
    assert!(told.contains("has no fault where Under has"), "{told}");
}

#[test]
fn what_is_better_is_told_in_words() {
    let both = compared(&under_and_over());
    assert_eq!(words(&both, "fails"), ["", "fewer"]);
    assert_eq!(words(&both, "gap_drawn"), ["", "more room"]);
    assert_eq!(words(&both, "hose"), ["shorter", ""]);
    assert_eq!(words(&both, "cost"), ["cheaper", ""]);
    assert_eq!(words(&both, "mass"), ["lighter", ""]);
    // Nothing bends in the one: that is gentler than any bend.
    assert_eq!(words(&both, "radius_drawn"), ["gentler", ""]);
    let run = &both.runs[0];
    assert!(run.differences[0].ends_with("longer"), "{:?}", run.differences);
}

#[test]
fn one_that_is_better_in_all_says_so() {
    let bay = with_routings(vec![
        routing("far", "Far", vec![out(250.0)]),
        routing("near", "Near", vec![out(150.0)]),
    ]);
    let mut free = bay;
    free.obstacles.clear();
    let told = compared(&free).sentence;
    assert!(told.starts_with("Near "), "{told}");
    assert!(!told.contains(", but "), "{told}");
}

#[test]
fn a_copy_is_equal() {
    let mut bay = under_and_over();
    let copy = Routing { id: "copy".into(), name: "Copy".into(), ..bay.routings[1].clone() };
    bay.routings.push(copy);
    let both = compared_in(&bay, &[1, 2]);
    let told = &both.sentence;
    assert!(told.starts_with("Over and Copy are equal in every figure of the table"), "{told}");
    assert!(both.rows.iter().all(Row::is_same));
    assert!(
        both.rows
            .iter()
            .flat_map(|row| &row.cells)
            .all(|cell| ["", "the same", "enough"].contains(&cell.word))
    );
    assert!(both.runs.iter().all(|run| run.differences.is_empty()));
}

#[test]
fn equal_faults_are_still_told() {
    let mut bay = under_and_over();
    bay.routings[1] = Routing { id: "copy".into(), name: "Copy".into(), ..bay.routings[0].clone() };
    let told = compared(&bay).sentence;
    assert!(told.contains("; neither may be built yet: both have "), "{told}");
}

#[test]
fn nothing_is_claimed_of_a_price_that_is_not_known() {
    let mut bay = under_and_over();
    bay.stock.hoses[0].sizes[0].price_per_m = None;
    let both = compared(&bay);
    assert_eq!(words(&both, "cost"), ["", ""]);
    let cells = &row(&both, "cost").cells;
    assert!(cells.iter().all(|cell| cell.is_unknown && cell.text == "unknown"), "{cells:?}");
    let told = &both.sentence;
    assert!(!told.contains("costs 0") && !told.contains("cheaper"), "{told}");
    assert!(told.contains("which costs less (the price of "), "{told}");
    // The rest is told as before.
    assert_eq!(words(&both, "hose"), ["shorter", ""]);
}

#[test]
fn a_hose_that_cannot_be_worked_out_leaves_its_figures_open() {
    let mut bay = under_and_over();
    bay.routings[0].runs[0].hose = "gone".into();
    let both = compared(&bay);
    for id in ["hose", "gap_drawn", "radius_drawn", "free_span", "cost", "mass"] {
        assert!(row(&both, id).cells[0].is_unknown, "{id}");
        assert_eq!(words(&both, id), ["", ""], "{id}");
    }
    assert!(both.runs[0].cells[0].as_ref().unwrap().cut_mm.is_none());
}

#[test]
fn a_hose_that_only_one_has_is_told() {
    let mut bay = under_and_over();
    let second = Run { id: "second".into(), ..out(220.0) };
    bay.routings[1].runs.push(second);
    let both = compared(&bay);
    assert_eq!(both.runs.len(), 2);
    assert_eq!(both.runs[1].cells[0], None);
    assert_eq!(both.runs[1].differences, ["only in Over"]);
}

#[test]
fn three_routings_have_their_best() {
    let mut bay = under_and_over();
    bay.routings.push(routing("round", "Round: far out", vec![out(320.0)]));
    let all = compared(&bay);
    assert_eq!(words(&all, "hose"), ["shortest", "", ""]);
    assert_eq!(words(&all, "gap_drawn").iter().filter(|word| **word == "most room").count(), 1);
    let told = &all.sentence;
    assert!(told.starts_with("Of 3 routings "), "{told}");
    assert!(told.contains("least hose with Under (Under 600 mm, Over "), "{told}");
    let copies: Vec<Routing> = ["x", "y", "z"]
        .map(|id| Routing { id: id.into(), name: id.into(), ..bay.routings[1].clone() })
        .into();
    let equal = compared(&with_routings(copies)).sentence;
    assert!(equal.starts_with("x, y and z are equal in every figure"), "{equal}");
}

#[test]
fn the_slack_that_a_position_needs_is_held_against_what_is_given() {
    let mut bay = with_routings(vec![
        routing("tight", "Tight", vec![out(150.0)]),
        routing("loose", "Loose", vec![out(150.0)]),
    ]);
    bay.obstacles.clear();
    bay.ports[1].group = Some("engine".into());
    let from = DVec3::ZERO;
    let moves = vec![Motion::Slide { from, to: DVec3::new(60.0, 0.0, 0.0), extra: vec![] }];
    bay.groups =
        vec![MovingGroup { id: "engine".into(), name: "Engine".into(), moves, extra: vec![] }];
    bay.routings[1].runs[0].slack_pct = Some(12.0);
    let [tight, loose] = [0, 1].map(|place| figures(&bay, place));
    let lack = |figures: &RoutingFigures| figures.worst_lack().known().unwrap().1;
    assert_eq!((lack(&tight).given_pct, lack(&loose).given_pct), (0.0, 12.0));
    assert!(lack(&tight).pct() > lack(&loose).pct());
    assert_eq!(words(&compared(&bay), "slack_needed"), ["", "lacks less"]);
}

/// Water of 20 °C at 10 L/min in every hose: the longer way with its bends loses more.
fn flowing(flow_lpm: Option<f64>) -> impl Fn(&mut Run) {
    move |run| {
        run.service.flow_lpm = flow_lpm;
        run.service.fluid = Some(Fluid::Water);
        run.service.temperature_c = Some(20.0);
    }
}

#[test]
fn the_pressure_lost_is_told_where_it_is_known() {
    let with = |change: &dyn Fn(usize, &mut Run)| {
        let mut bay = under_and_over();
        for (place, routing) in bay.routings.iter_mut().enumerate() {
            routing.runs.iter_mut().for_each(|run| change(place, run));
        }
        compared(&bay)
    };
    let cells = |comparison: &Comparison| row(comparison, "pressure_drop").cells.clone();
    let both = with(&|_, run| flowing(Some(10.0))(run));
    let [under, over] = [0, 1].map(|place| cells(&both)[place].clone());
    assert_eq!([under.word, over.word], ["less", ""]);
    assert!(over.value.unwrap() > 1.1 * under.value.unwrap());
    assert!(both.runs[0].differences.iter().any(|told| told.contains("loses more pressure")));
    // Nothing is asked where nothing flows.
    let none = with(&|_, run| flowing(None)(run));
    assert!(
        cells(&none).iter().all(|cell| cell.text == "no flow, or not sized" && !cell.is_unknown)
    );
    // What flows in one only cannot be held against it.
    let one = with(&|place, run| flowing(Some(10.0).filter(|_| place == 1))(run));
    assert!(cells(&one).iter().all(|cell| cell.word.is_empty()));
    assert!(one.sentence.contains("which loses less pressure cannot be told"), "{}", one.sentence);
    // A flow whose drop is not known is said, and is no nought.
    let air = with(&|place, run| {
        flowing(Some(10.0))(run);
        if place == 0 {
            run.service.fluid = Some(Fluid::Air);
        }
    });
    let cell = &cells(&air)[0];
    assert_eq!((cell.value, cell.text.as_str(), cell.is_unknown), (None, "unknown", true));
    assert!(cells(&air).iter().all(|cell| cell.word.is_empty()));
    // Brake lines are not sized, which is the same in both.
    let brakes = with(&|_, run| {
        flowing(Some(10.0))(run);
        run.service.fluid = Some(Fluid::BrakeFluid);
    });
    assert!(cells(&brakes).iter().all(|cell| cell.value.is_none() && !cell.is_unknown));
}

#[test]
fn the_formats_say_the_same() {
    let both = compared(&under_and_over());
    let json: serde_json::Value = serde_json::from_str(&compare_json(&both)).expect("one document");
    assert_eq!(json["report"], "hosewright-compare");
    assert_eq!(json["version"], 1);
    assert_eq!(json["sentence"], both.sentence);
    assert_eq!(json["figures"].as_array().unwrap().len(), both.rows.len());
    let html = written(CompareFormat::Html, &both);
    assert!(html.contains("Routings side by side") && html.contains("stroke-dasharray"));
    let csv = written(CompareFormat::Csv, &both);
    assert_eq!(csv.matches("\r\n").count(), 1 + 2 * both.rows.len() + 2);
}

fn written(format: CompareFormat, comparison: &Comparison) -> String {
    String::from_utf8(format.write(comparison, Paper::A4).unwrap()).unwrap()
}

fn cells_of(comparison: &Comparison, place: usize) -> Vec<Cell> {
    comparison.rows.iter().map(|row| row.cells[place].clone()).collect()
}

/// Two routings of made-up corners and a clamp.
fn any_bay() -> impl Strategy<Value = Bay> {
    let place = || (150.0..450.0_f64, -40.0..250.0_f64, -150.0..150.0_f64);
    let priced = any::<bool>();
    (place(), place(), 300.0..450.0_f64, 0.0..8.0_f64, priced).prop_map(
        |(p, q, x, slack, priced)| {
            let mut first = one_run(vec![corner(p.0, p.1, p.2)]);
            first.slack_pct = Some(slack);
            let held = clamp(DVec3::new(x, q.1, q.2), DVec3::X, 10.0, None);
            let mut all = with_routings(vec![
                routing("first", "First", vec![first]),
                routing("second", "Second", vec![one_run(vec![held])]),
            ]);
            let mut own = hose();
            own.sizes[0].price_per_m = priced.then_some(12.5);
            all.stock.hoses = vec![own];
            all
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, ..ProptestConfig::default() })]

    #[test]
    fn swapping_the_routings_swaps_the_words(bay in any_bay()) {
        let (one, other) = (compared_in(&bay, &[0, 1]), compared_in(&bay, &[1, 0]));
        for (row, swapped) in one.rows.iter().zip(&other.rows) {
            // Kinds of hose and end are listed as they come.
            if row.id != swapped.id {
                continue;
            }
            prop_assert_eq!(&row.cells[0], &swapped.cells[1]);
            prop_assert_eq!(&row.cells[1], &swapped.cells[0]);
        }
        prop_assert_eq!(cells_of(&one, 0).len(), cells_of(&other, 1).len());
        let is_equal = one.sentence.contains("equal in") || one.sentence.contains("do not differ");
        prop_assert!(is_equal || one.sentence == other.sentence, "{} {}", one.sentence, other.sentence);
    }

    #[test]
    fn a_routing_is_equal_to_itself(bay in any_bay()) {
        let mut twice = bay;
        twice.routings[1] =
            Routing { id: "again".into(), name: "Again".into(), ..twice.routings[0].clone() };
        let both = compared(&twice);
        prop_assert!(both.sentence.contains("are equal in every figure"), "{}", both.sentence);
        prop_assert!(both.runs[0].differences.is_empty());
    }

    #[test]
    fn what_is_told_is_never_of_a_figure_that_is_not_known(bay in any_bay()) {
        let both = compared(&bay);
        for row in &both.rows {
            if row.id != "cost" && row.id != "mass" && row.cells.iter().any(|cell| cell.is_unknown) {
                prop_assert!(row.cells.iter().all(|cell| cell.word.is_empty()), "{row:?}");
            }
        }
        let whole = written(CompareFormat::Html, &both);
        prop_assert!(!whole.contains("NaN") && !both.sentence.contains("inf"), "{}", both.sentence);
        prop_assert!(both.sentence.ends_with('.'));
    }
}
