//! Which views are shown, turning, ghosts, and what is kept from frame to frame.

use eframe::egui::accesskit::Role;
use eframe::egui::{Event, Key, Modifiers, PointerButton, Pos2, pos2, vec2};
use egui_kittest::kittest::Queryable as _;
use glam::DVec3;
use hosewright::app::canvas::camera::View;
use hosewright::app::canvas::panes::Pane;

use crate::world::World;

fn shown(world: &World) -> Vec<Pane> {
    let panes = world.app().canvas().panes;
    Pane::ALL.into_iter().filter(|pane| panes.shows(*pane)).collect()
}

fn has_view(world: &World, name: &str) -> bool {
    world.window.query_all_by_role(Role::Canvas).any(|node| {
        use egui_kittest::kittest::NodeT as _;
        node.accesskit_node().label().as_deref() == Some(name)
    })
}

#[test]
fn keys_make_a_view_large_and_put_the_others_back() {
    let mut world = World::with_car();
    assert_eq!(shown(&world).len(), 4);
    for (key, pane, name) in [
        (Key::Num1, Pane::Plan, "Plan view"),
        (Key::Num2, Pane::Side, "Side view"),
        (Key::Num3, Pane::Front, "Front view"),
        (Key::Num4, Pane::Turning, "3-D view"),
    ] {
        world.press(key);
        assert_eq!(shown(&world), [pane]);
        assert!(has_view(&world, name));
        world.press(key);
        assert_eq!(shown(&world).len(), 4);
    }
    world.press(Key::Num2);
    world.press(Key::V);
    assert_eq!(shown(&world).len(), 4);
}

#[test]
fn views_are_taken_away_and_brought_back_one_by_one() {
    let mut world = World::with_car();
    world.window.key_press_modifiers(Modifiers::ALT, Key::Num4);
    world.window.run();
    assert_eq!(shown(&world), [Pane::Plan, Pane::Side, Pane::Front]);
    assert!(!has_view(&world, "3-D view"));
    // Plan has the room of the view that is away, and stays in line with the side view.
    let (cameras, areas) = (world.app().canvas().cameras, world.app().canvas().areas);
    assert!(areas[0].size().x > areas[1].size().x + 100.0);
    let p = DVec3::new(500.0, 100.0, 200.0);
    let x = |view: View| cameras.of(view).to_screen(areas[view.index()], view.project(p)).x;
    assert!((x(View::Plan) - x(View::Side)).abs() < 1e-9);
    world.click("Views");
    world.click("Front");
    assert_eq!(shown(&world), [Pane::Plan, Pane::Side]);
    world.click("All views");
    assert_eq!(shown(&world).len(), 4);
}

#[test]
fn a_double_click_on_the_name_of_a_view_makes_it_large() {
    let mut world = World::with_car();
    let name = world.place_of("Side: double-click for large or back");
    // Both clicks in one frame: frames of a test are a quarter of a second apart.
    world.window.hover_at(name);
    world.window.run();
    for pressed in [true, false, true, false] {
        let (button, modifiers) = (PointerButton::Primary, Modifiers::NONE);
        let event = Event::PointerButton { pos: name, button, pressed, modifiers };
        world.window.input_mut().events.push(event);
    }
    world.window.run();
    assert_eq!(shown(&world), [Pane::Side]);
    world.click("All views");
    assert_eq!(shown(&world).len(), 4);
    world.click("3-D view large");
    assert_eq!(shown(&world), [Pane::Turning]);
}

fn drag_paper(world: &mut World, from: Pos2, by: eframe::egui::Vec2) {
    world.window.drag_at(from);
    world.window.run();
    world.window.hover_at(from + by);
    world.window.run();
    world.window.drop_at(from + by);
    world.window.run();
}

#[test]
fn the_3d_view_turns_zooms_and_goes_back_to_known_sides() {
    let mut world = World::with_car();
    let camera = |world: &World| world.app().canvas().turning.camera;
    let before = camera(&world);
    let frame = world.window.get_by_role_and_label(Role::Canvas, "3-D view").rect();
    let empty = pos2(frame.max.x - 30.0, frame.min.y + 60.0);
    drag_paper(&mut world, empty, vec2(-60.0, 20.0));
    let turned = camera(&world);
    assert!(turned.basis().to_viewer.distance(before.basis().to_viewer) > 0.1);
    assert_eq!(turned.points_per_mm, before.points_per_mm);
    assert_eq!(world.app().document().unwrap().history().depth(), 0, "looking is no change");

    world.click("Look from above, as in the plan");
    assert!(camera(&world).basis().to_viewer.distance(DVec3::Z) < 1e-9);
    let scale = camera(&world).points_per_mm;
    world.window.hover_at(frame.center());
    world.window.event(eframe::egui::Event::MouseWheel {
        unit: eframe::egui::MouseWheelUnit::Point,
        delta: vec2(0.0, 80.0),
        modifiers: Modifiers::NONE,
        phase: eframe::egui::TouchPhase::Move,
        source: eframe::egui::MouseWheelSource::Unknown,
    });
    world.window.run();
    assert!(camera(&world).points_per_mm > scale);
    world.press(Key::F);
    let fitted = camera(&world).points_per_mm;
    assert!((fitted - scale).abs() < 1e-9, "the whole bay again");
}

#[test]
fn things_are_selected_in_the_3d_view_and_light_up_in_all() {
    let mut world = World::with_car();
    world.press(Key::Num4);
    let name = "Oil cooler to gearbox";
    let run = world.run(name).id.clone();
    // From above nothing lies over this hose all along; look for a place where it is seen.
    world.click("Look from above, as in the plan");
    let routing = &world.bay().routings[0];
    let index = routing.runs.iter().position(|r| r.id == run).unwrap();
    let solution = hosewright::engine::solve_whole(world.bay(), routing);
    let line = solution.run(index).unwrap().centre_line.clone();
    let mut selected = false;
    for k in 1..40 {
        let at = world.app().canvas().turning.picture();
        let at = at.to_screen(line.point_at(line.length() * f64::from(k) / 40.0));
        let at = pos2(at.x as f32, at.y as f32);
        world.window.drag_at(at);
        world.window.drop_at(at);
        world.window.run();
        selected |= world.app().selected_run() == Some(run.as_str());
    }
    assert!(selected, "clicked on somewhere along its way");
}

#[test]
fn the_other_routing_stands_behind_and_changes_places_with_the_one_in_view() {
    let mut world = World::with_car();
    assert_eq!(world.app().canvas().ghost, None);
    world.press(Key::G);
    assert_eq!(world.app().canvas().ghost, Some(1));
    world.press(Key::O);
    assert_eq!((world.app().routing(), world.app().canvas().ghost), (1, Some(0)));
    world.press(Key::G);
    assert_eq!(world.app().canvas().ghost, None);
}

#[test]
fn what_is_selected_is_shown_as_large_as_it_goes() {
    let mut world = World::with_car();
    let scale = |world: &World| world.app().canvas().cameras.of(View::Plan).points_per_mm;
    let before = scale(&world);
    world.window.key_press_modifiers(Modifiers::SHIFT, Key::F);
    world.window.run();
    assert!(scale(&world) > 1.3 * before, "one hose is smaller than the bay");
}

#[test]
fn every_choice_of_views_can_be_drawn_at_every_size() {
    use eframe::egui::Theme;
    for size in [vec2(900.0, 560.0), vec2(2560.0, 1440.0)] {
        let mut world =
            World::with(Some("demo_projects/diesel-launch.bay.json"), size, Theme::Dark);
        for pane in [Key::Num1, Key::Num2, Key::Num3, Key::Num4] {
            world.window.key_press_modifiers(Modifiers::ALT, pane);
            world.window.run();
            world.press(Key::F);
            world.press(Key::G);
        }
        assert_eq!(shown(&world).len(), 1);
    }
}

#[test]
fn what_is_in_front_is_seen_through_when_asked() {
    let mut world = World::with_car();
    assert!(!world.app().canvas().sees_through);
    for expected in [true, false] {
        world.click("Views");
        world.click("See through what is in front");
        assert_eq!(world.app().canvas().sees_through, expected);
        world.press(Key::Escape);
    }
}
