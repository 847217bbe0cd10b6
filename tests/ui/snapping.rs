//! What is held snaps, and a key lets it go free.

use eframe::egui::{Event, Key, Modifiers, PointerButton, Pos2, vec2};
use glam::DVec3;
use hosewright::model::Via;

use crate::world::World;

impl World {
    /// From the middle of the plan view.
    fn plan(&self, x: f32, y: f32) -> Pos2 {
        self.place_of("Plan view") + vec2(x, y)
    }

    fn click_on(&mut self, at: Pos2) {
        self.window.hover_at(at);
        self.window.drag_at(at);
        self.window.drop_at(at);
        self.window.run();
        // Far from the next click in time, so that two do not make a double one.
        self.window.run_steps(30);
    }

    /// Two ports that look at each other, 360 points apart and 120 beside.
    fn with_two_ports() -> Self {
        let mut world = Self::new();
        world.press_ctrl(Key::N);
        for (from, to) in [((-180.0, 60.0), (-120.0, 60.0)), ((180.0, -60.0), (120.0, -60.0))] {
            world.press(Key::P);
            let (from, to) = (world.plan(from.0, from.1), world.plan(to.0, to.1));
            world.window.hover_at(from);
            world.window.drag_at(from);
            world.window.hover_at(to);
            world.window.run();
            world.window.drop_at(to);
            world.window.run();
        }
        world.press(Key::Escape);
        world
    }

    fn ports(&self) -> [DVec3; 2] {
        [self.bay().ports[0].at, self.bay().ports[1].at]
    }
}

/// A port that is dragged to within reach of another's height stands exactly on it; with Alt held it
/// stays where the pointer is.
#[test]
fn a_port_lines_up_with_another_unless_alt_is_held() {
    let mut world = World::with_two_ports();
    let [a, b] = world.ports();
    let on_screen = [1, 2].map(|n| world.place_of(&format!("Port Port {n}, plan")));
    let from = on_screen[0];
    let by = vec2(40.0, on_screen[1].y - on_screen[0].y + 5.0);
    world.drag("Port Port 1, plan", by);
    let moved = world.ports()[0];
    assert_eq!(moved.y, b.y);
    assert!(moved.x > a.x);
    world.press_ctrl(Key::Z);
    assert_eq!(world.ports()[0], a);

    let button = |pos, pressed| Event::PointerButton {
        pos,
        button: PointerButton::Primary,
        pressed,
        modifiers: Modifiers::ALT,
    };
    world.window.event(Event::ModifiersChanged(Modifiers::ALT));
    world.window.event(Event::PointerMoved(from));
    world.window.event(button(from, true));
    world.window.event(Event::PointerMoved(from + by));
    world.window.event(button(from + by, false));
    world.window.run();
    assert!((world.ports()[0].y - b.y).abs() > 0.5, "free: {}", world.ports()[0]);
}

/// Corners that are clicked near the axes of the two ports lie on them.
#[test]
fn the_corners_of_a_hose_that_is_pulled_lie_on_the_ports_axes() {
    let mut world = World::with_two_ports();
    let ports = world.ports();
    world.press(Key::H);
    let on_screen = [1, 2].map(|n| world.place_of(&format!("Port Port {n}, plan")));
    world.click_on(on_screen[0]);
    world.click_on(on_screen[0] + vec2(171.0, 4.0));
    world.click_on(on_screen[1] + vec2(-193.0, -3.0));
    world.click_on(on_screen[1]);
    let run = &world.bay().routings[0].runs[0];
    let [Via::Corner(first), Via::Corner(second)] = run.via.as_slice() else {
        panic!("two corners: {:?}", run.via)
    };
    assert_eq!((first.at.y, first.at.z), (ports[0].y, ports[0].z));
    assert_eq!(second.at.y, ports[1].y);
}
