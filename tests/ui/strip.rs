//! The bench strip and the list of findings.

use eframe::egui::{Key, Modifiers, pos2, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use hosewright::app::canvas::thing::Thing;
use hosewright::checks::{Severity, check};
use hosewright::engine::{RunSolution, solve_whole};
use hosewright::model::Via;

use crate::world::World;

fn solved(world: &World, run: &str) -> RunSolution {
    let routing = &world.bay().routings[world.app().routing()];
    let index = routing.runs.iter().position(|other| other.id == run).expect("the run");
    solve_whole(world.bay(), routing).run(index).expect("solved").clone()
}

/// The messages of the findings of all hoses but one, with their severity, worst first.
fn findings_beside(world: &World, run: &str) -> Vec<(Severity, String)> {
    let routing = &world.bay().routings[world.app().routing()];
    let mut found = check(world.bay(), routing, &solve_whole(world.bay(), routing));
    found.sort_by_key(|finding| finding.severity);
    let others = found.into_iter().filter(|f| f.run.as_deref() != Some(run));
    others.map(|finding| (finding.severity, finding.message)).collect()
}

/// How far down each text stands.
fn heights(world: &World, texts: &[(Severity, String)]) -> Vec<Vec<i64>> {
    let of = |text: &str| {
        let all = world.window.query_all_by_label(text);
        all.map(|node| node.rect().min.y.round() as i64).collect()
    };
    texts.iter().map(|(_, text)| of(text)).collect()
}

fn strip_name(world: &World) -> String {
    let mut strips = world.window.query_all_by_label_contains("Bench strip");
    strips.next().expect("the strip").accesskit_node().label().expect("its name")
}

#[test]
fn pointing_at_the_strip_says_how_far_from_the_cut_end() {
    let mut world = World::with_car();
    assert!(!strip_name(&world).contains("from A"));
    let rect = world.window.query_all_by_label_contains("Bench strip").next().unwrap().rect();
    world.window.hover_at(rect.center());
    world.window.run();
    assert!(strip_name(&world).contains(" from A"), "{}", strip_name(&world));
}

#[test]
fn pointing_at_a_hose_in_a_view_moves_the_cursor_of_the_strip() {
    let mut world = World::with_car();
    world.click("Hose Oil cooler to gearbox, plan");
    let at = world.place_of("Hose Oil cooler to gearbox, plan");
    world.window.hover_at(at + vec2(1.0, 0.0));
    world.window.run();
    assert!(strip_name(&world).contains(" from A"), "{}", strip_name(&world));
}

#[test]
fn the_arrow_keys_move_along_the_strip() {
    let mut world = World::with_car();
    world.window.query_all_by_label_contains("Bench strip").next().unwrap().focus();
    world.window.run();
    let first = strip_name(&world);
    for _ in 0..4 {
        world.window.key_press_modifiers(eframe::egui::Modifiers::SHIFT, Key::ArrowRight);
        world.window.run();
    }
    let moved = strip_name(&world);
    assert_ne!(first, moved);
    // Four times ten sixteenths of an inch.
    assert!(moved.contains("; 2 1/2 in from A"), "{moved}");
    assert!(!world.app().document().unwrap().is_changed(), "looking is no change");
}

#[test]
fn all_findings_are_listed_with_their_counts() {
    let mut world = World::with_car();
    let tab = world.window.query_all_by_label_contains(" faults, ").next().unwrap();
    let label = tab.accesskit_node().label().unwrap();
    let others = "Filter to fuel rail";
    let count = |world: &World| world.window.query_all_by_label(others).count();
    let before = count(&world);
    world.click(&label);
    assert!(count(&world) > before, "under the name of its hose");
    assert!(world.has_containing(" notes"), "notes are folded");
    assert!(world.has("and 3 more"), "of what comes of a fault the worst two are listed");
    world.click("Hoses");
    assert_eq!(count(&world), before, "the card keeps its own");
}

#[test]
fn pointing_at_the_strip_lights_the_place_in_the_views() {
    let mut world = World::with_car();
    world.click("Hose Oil cooler to gearbox, plan");
    let run = world.app().selected_run().expect("a hose").to_owned();
    let solved = solved(&world, &run);
    let rect = world.window.query_all_by_label_contains("Bench strip").next().unwrap().rect();
    let mut last = 0.0;
    for share in [0.3, 0.5, 0.7] {
        world.window.hover_at(pos2(rect.min.x + share * rect.width(), rect.center().y));
        world.window.run();
        let lit = world.app().canvas().lit_at().expect("a place is lit");
        let apart = |at: f64| solved.centre_line.point_at(at).distance(lit);
        let steps = (0..=2000).map(|k| solved.centreline_mm * f64::from(k) / 2000.0);
        let at = steps.min_by(|a, b| apart(*a).total_cmp(&apart(*b))).unwrap();
        assert!(apart(at) < 1.0, "{share}: {} off the hose", apart(at));
        assert!(at > last, "further along the strip is further along the hose");
        last = at;
        // What is said there is where it comes to lie on the bench.
        let said = hosewright::units::Length::from_mm(solved.on_bench_mm(at));
        let named = strip_name(&world);
        let inches = hosewright::units::Length::parse(
            named.split("; ").nth(1).unwrap().split(" from A").next().unwrap(),
            world.bay().show_units,
        );
        assert!((inches.unwrap().mm() - said.mm()).abs() < 2.0, "{named} {said:?}");
    }
    world.window.hover_at(pos2(rect.min.x + 5.0, rect.center().y));
    world.window.run();
    assert_eq!(world.app().canvas().lit_at(), None, "beside the hose nothing is meant");
}

#[test]
fn a_clamp_is_selected_on_the_strip_by_key() {
    let mut world = World::with_car();
    world.click("Hose Oil cooler to gearbox, plan");
    let run = world.app().selected_run().expect("a hose").to_owned();
    // What the pointer is at in a view goes before the keys.
    world.window.hover_at(pos2(3.0, 3.0));
    world.window.query_all_by_label_contains("Bench strip").next().unwrap().focus();
    world.window.run();
    let mut presses = 0;
    while !strip_name(&world).contains("clamp 1") {
        world.window.key_press_modifiers(Modifiers::SHIFT, Key::ArrowRight);
        world.window.run();
        presses += 1;
        assert!(presses < 200, "{}", strip_name(&world));
    }
    let clamp = solved(&world, &run).clamps[0].clone();
    world.press(Key::Enter);
    assert_eq!(world.app().selected_things(), [Thing::Via { run, via: clamp.via }]);
    world.press(Key::End);
    let cut = hosewright::units::Length::from_mm(
        solved(&world, world.app().selected_run().unwrap()).cut_length_mm,
    );
    let end = format!("; {} from A", cut.show(world.bay().show_units));
    assert!(strip_name(&world).contains(&end), "{}", strip_name(&world));
}

#[test]
fn the_list_of_findings_stands_still_while_something_is_held() {
    let mut world = World::with_car();
    world.press(Key::O);
    world.click("Hose Filter to fuel rail, plan");
    let tab = world.window.query_all_by_label_contains(" faults, ").next().unwrap();
    let label = tab.accesskit_node().label().unwrap();
    world.click(&label);
    let beside = findings_beside(&world, "feed");
    let shown: Vec<_> = beside.into_iter().filter(|(s, _)| *s != Severity::Note).collect();
    let before = heights(&world, &shown);
    assert!(before.iter().any(|places| !places.is_empty()), "{shown:?}");

    let corner = "Corner 1 of Filter to fuel rail, plan";
    let from = world.place_of(corner);
    world.window.drag_at(from);
    world.window.run();
    for by in [vec2(8.0, 4.0), vec2(60.0, 50.0), vec2(-70.0, 40.0), vec2(150.0, 90.0)] {
        world.window.hover_at(from + by);
        world.window.run();
        assert_eq!(heights(&world, &shown), before, "moved by {by}");
    }
    let changed = {
        let routing = &world.bay().routings[world.app().routing()];
        check(world.bay(), routing, &solve_whole(world.bay(), routing)).len()
    };
    world.window.drop_at(from + vec2(150.0, 90.0));
    world.window.run();
    assert!(!world.has("New during this drag"), "sorted on release, {changed} findings");
}

#[test]
fn a_finding_about_no_hose_is_said_in_the_list_when_it_is_turned_to() {
    let mut world = World::with_car();
    let routing = &world.bay().routings[0];
    let all = check(world.bay(), routing, &solve_whole(world.bay(), routing));
    let of_bay = all.iter().filter(|finding| finding.run.is_none()).count();
    let mut turned = 0;
    let mut said = 0;
    while turned < all.len() {
        world.press(Key::N);
        turned += 1;
        said += usize::from(world.has("The bay"));
    }
    assert_eq!(said > 0, of_bay > 0, "{of_bay} of the bay");
}

/// Where on the strip a clamp is pointed at.
fn clamp_on_strip(world: &mut World, clamp: &str) -> eframe::egui::Pos2 {
    let rect = world.window.query_all_by_label_contains("Bench strip").next().unwrap().rect();
    let steps =
        (0..400).map(|k| pos2(rect.min.x + rect.width() * k as f32 / 400.0, rect.center().y));
    for at in steps {
        world.window.hover_at(at);
        world.window.run();
        if strip_name(world).contains(clamp) {
            return at;
        }
    }
    panic!("{clamp} is not on the strip: {}", strip_name(world));
}

#[test]
fn a_clamp_pulled_along_the_strip_moves_slack_from_one_side_to_the_other() {
    let mut world = World::with_car();
    let name = "Oil cooler to gearbox";
    world.click(&format!("Hose {name}, plan"));
    assert_eq!(world.run(name).slack_mm, None);
    let before = solved(&world, &world.run(name).id.clone());
    let at = clamp_on_strip(&mut world, "clamp 1");
    // From the side that has slack: a clamped straight beside it has none to give.
    let has_more = before.spans[1].slack_mm > before.spans[0].slack_mm;
    let (way, sign) = if has_more { (12.0, 1.0) } else { (-12.0, -1.0) };
    world.drag_between(at, at + vec2(way, 0.0));
    let after = solved(&world, &world.run(name).id.clone());
    let each = world.run(name).slack_mm.clone().expect("slack by free length");
    assert_eq!(each.len(), before.clamps.len() + 1);
    assert!((after.cut_length_mm - before.cut_length_mm).abs() < 1e-6, "the cut length stays");
    let slack = |solved: &RunSolution, place: usize| solved.spans[place].slack_mm;
    let moved = slack(&after, 0) - slack(&before, 0);
    assert!(sign * moved > 1.0, "{moved}");
    assert!((slack(&before, 1) - slack(&after, 1) - moved).abs() < 1e-6);
    // Its mark follows.
    let mark = |solved: &RunSolution| solved.on_bench_mm(solved.clamps[0].at_mm);
    assert!((mark(&after) - mark(&before) - moved).abs() < 1e-6);
    world.press_ctrl(Key::Z);
    assert_eq!(world.run(name).slack_mm, None, "one step, taken back");
}

#[test]
fn a_clamp_is_put_on_and_taken_off_by_the_menu_of_the_strip() {
    let mut world = World::with_car();
    let run = world.app().selected_run().expect("a hose is selected").to_owned();
    let clamps = |world: &World| {
        let mut runs = world.bay().routings[world.app().routing()].runs.iter();
        let run = runs.find(|other| other.id == run).expect("the run");
        run.via.iter().filter(|via| matches!(via, Via::Clamp(_))).count()
    };
    let before = clamps(&world);
    let strip = world.window.query_all_by_label_contains("Bench strip").next().unwrap();
    strip.click_secondary();
    world.window.run();
    assert!(world.has_containing(" from cut end A"));
    world.click("Add a clamp here");
    assert_eq!(clamps(&world), before + 1);
    let strip = world.window.query_all_by_label_contains("Bench strip").next().unwrap();
    strip.click_secondary();
    world.window.run();
    world.click("Remove clamp");
    assert_eq!(clamps(&world), before);
}
