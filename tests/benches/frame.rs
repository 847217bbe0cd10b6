//! What one frame of the window costs, on a bay of 60 hoses and 200 obstacles, without a window: the
//! bay worked out, checked, laid out, painted and cut into triangles for the graphics card.
//!
//! `cargo bench --bench frame`; the goal for a drag in three views is a median under 8 ms.
#![allow(clippy::expect_used, reason = "a bench may stop where it stands")]
#![allow(clippy::print_stdout, reason = "it says what it measures on")]

#[path = "../common/mod.rs"]
mod common;

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

use common::build::{bay, clamp, corner, elbow_end, port, run};
use divan::{Bencher, black_box};
use eframe::App as _;
use eframe::egui::{
    Context, Event, Key, Modifiers, PointerButton, Pos2, RawInput, Rect, Vec2, ViewportId, pos2,
};
use glam::DVec3;
use hosewright::app::canvas::camera::View;
use hosewright::app::files::{Dialogs, Reply, Wanted};
use hosewright::app::recent::Recent;
use hosewright::app::recovery::Recovery;
use hosewright::app::settings::Store;
use hosewright::app::{App, Services, theme};
use hosewright::checks::{Severity, check};
use hosewright::document::file;
use hosewright::engine::solve_whole;
use hosewright::model::{Bay, Nature, Obstacle, Shape};

/// As in the program.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

fn main() {
    for (lying, name) in [(Hoses::Apart, "apart"), (Hoses::Tangled, "tangled")] {
        let bay = large_bay(lying);
        let routing = &bay.routings[0];
        let found = check(&bay, routing, &solve_whole(&bay, routing));
        let counts = [Severity::Fail, Severity::Warn, Severity::Note]
            .map(|severity| found.iter().filter(|finding| finding.severity == severity).count());
        println!("hoses {name}: {counts:?} failures, warnings, notes");
    }
    divan::main();
}

const HOSES: usize = 60;
const OBSTACLES: usize = 200;

/// How the hoses of the bay lie to each other.
#[derive(Clone, Copy, PartialEq)]
enum Hoses {
    /// In layers that cross over each other, with room between: as somebody would build it.
    Apart,
    /// All through one place, cutting into each other: thousands of findings.
    Tangled,
}

/// Hoses of two corners and a clamp each, over and under each other, among obstacles of every kind.
fn large_bay(lying: Hoses) -> Bay {
    let mut ports = Vec::new();
    let mut hoses = Vec::new();
    for k in 0..HOSES {
        let (row, column) = ((k % 10) as f64, (k / 10) as f64);
        let (y, z) = (90.0 * row, 70.0 * column);
        let (a, b) = (format!("a{k}"), format!("b{k}"));
        let (end, middle, sag) = match lying {
            Hoses::Apart => {
                let aside = 120.0 * (column - 2.5);
                (DVec3::new(1500.0, y + aside, z), DVec3::new(750.0, y + aside / 2.0, z), 0.0)
            }
            Hoses::Tangled => (
                DVec3::new(1500.0, 900.0 - y, 420.0 - z),
                DVec3::new(750.0, 450.0 + 12.0 * row, 210.0 + 9.0 * column),
                10.0,
            ),
        };
        ports.push(port(&a, DVec3::new(0.0, y, z), DVec3::X));
        ports.push(port(&b, end, -DVec3::X));
        let via = vec![
            corner(350.0 + sag * row, y + 60.0, z + 90.0),
            clamp(middle, DVec3::X, 10.0, None),
            corner(1150.0 - sag * row, end.y - 50.0, end.z + 60.0),
        ];
        let from = elbow_end(&a, None, 45.0, 90.0, (20.0, 15.0));
        let to = elbow_end(&b, None, 0.0, 0.0, (20.0, 0.0));
        let mut hose = run(from, to, via);
        (hose.id, hose.name) = (format!("r{k}"), format!("Hose {k}"));
        hoses.push(hose);
    }
    let first = hoses.remove(0);
    let mut bay = bay(ports, first);
    bay.routings[0].runs.extend(hoses);
    bay.obstacles = (0..OBSTACLES).map(|k| obstacle(k, lying)).collect();
    bay
}

fn obstacle(k: usize, lying: Hoses) -> Obstacle {
    // Above and below the hoses, or in among them.
    let height = if lying == Hoses::Apart { 800.0 } else { 300.0 };
    let at = DVec3::new(
        100.0 + 65.0 * (k % 20) as f64,
        30.0 + 90.0 * (k / 20 % 5) as f64,
        -80.0 + height * (k / 100) as f64,
    );
    let (nature, _) = Nature::ALL[k % 4];
    Obstacle {
        id: format!("s{k}"),
        name: format!("Thing {k}"),
        nature,
        min_clearance_mm: None,
        group: None,
        shape: match k % 3 {
            0 => Shape::Box { min: at, max: at + DVec3::new(45.0, 60.0, 40.0) },
            1 => Shape::Cylinder { from: at, to: at + DVec3::new(50.0, 20.0, 10.0), radius: 14.0 },
            _ => Shape::Sphere { at, radius: 20.0 },
        },
        locked: None,
        extra: Vec::new(),
    }
}

struct NoDialogs;

impl Dialogs for NoDialogs {
    fn ask(&self, _: &Wanted) -> Receiver<Reply> {
        channel().1
    }
}

/// The file of the large mesh.
const MESH: &str = "mesh.stl";

/// A window without a screen.
struct Bench {
    ctx: Context,
    app: App,
    frame: eframe::Frame,
    time: f64,
    _folder: tempfile::TempDir,
}

/// A wavy ball of 200 000 triangles about a place, as binary STL.
fn large_stl(at: DVec3) -> Vec<u8> {
    const ROUND: u32 = 400;
    const UP: u32 = 250;
    let point = |i: u32, k: u32| {
        let turn = std::f64::consts::TAU * f64::from(i % ROUND) / f64::from(ROUND);
        let lift = std::f64::consts::PI * f64::from(k) / f64::from(UP);
        let radius = 90.0 + 8.0 * (9.0 * turn).sin() * lift.sin();
        at + radius * DVec3::new(lift.sin() * turn.cos(), lift.sin() * turn.sin(), lift.cos())
    };
    let mut stl = vec![b' '; 80];
    stl.extend((2 * ROUND * UP).to_le_bytes());
    for (i, k) in (0..ROUND).flat_map(|i| (0..UP).map(move |k| (i, k))) {
        let [a, b, c, d] = [point(i, k), point(i, k + 1), point(i + 1, k + 1), point(i + 1, k)];
        for corners in [[a, b, c], [a, c, d]] {
            stl.extend([0; 12]);
            for number in corners.iter().flat_map(DVec3::to_array) {
                stl.extend((number as f32).to_le_bytes());
            }
            stl.extend([0; 2]);
        }
    }
    stl
}

impl Bench {
    fn new(lying: Hoses) -> Self {
        Self::with(&large_bay(lying), &[])
    }

    /// With a mesh of 200 000 triangles beside the hoses, and three views.
    fn with_mesh() -> Self {
        let mut bay = large_bay(Hoses::Apart);
        let at = DVec3::new(750.0, 1500.0, 100.0);
        let (mesh, file) = (Arc::default(), MESH.to_owned());
        let shape = Shape::Mesh { file, scale: 1.0, at: DVec3::ZERO, mesh };
        bay.obstacles.push(Obstacle { id: "mesh".into(), shape, ..obstacle(0, Hoses::Apart) });
        let mut bench = Self::with(&bay, &large_stl(at));
        bench.key(Key::Num4, Modifiers::ALT);
        bench
    }

    fn with(bay: &Bay, stl: &[u8]) -> Self {
        let folder = tempfile::tempdir().expect("a temporary folder");
        let path: PathBuf = folder.path().join("large.bay.json");
        std::fs::write(folder.path().join(MESH), stl).expect("a mesh can be written");
        file::save(&path, bay).expect("the bay can be saved");
        let services = Services {
            dialogs: Box::new(NoDialogs),
            recent: Recent::stored_in(folder.path().join("recent.json")),
            settings: Store::stored_in(folder.path().join("settings.json")),
            recovery: Recovery::stored_in(folder.path().join("recovery"), Duration::ZERO),
            wake: std::sync::Arc::new(|| {}),
            patience: Duration::from_secs(20),
            show: |_| Ok(()),
        };
        let ctx = Context::default();
        theme::install(&ctx);
        let app = App::new(Some(path), services);
        let frame = eframe::Frame::_new_kittest();
        let mut bench = Self { ctx, app, frame, time: 0.0, _folder: folder };
        for _ in 0..3 {
            bench.frame(Vec::new());
        }
        bench
    }

    /// With plan, side and front only.
    fn with_three_views(lying: Hoses) -> Self {
        let mut bench = Self::new(lying);
        bench.key(Key::Num4, Modifiers::ALT);
        bench
    }

    /// One frame, up to the triangles. Says how many there are.
    fn frame(&mut self, events: Vec<Event>) -> usize {
        self.time += 1.0 / 60.0;
        let input = RawInput {
            screen_rect: Some(Rect::from_min_size(Pos2::ZERO, Vec2::new(1366.0, 768.0))),
            time: Some(self.time),
            events,
            viewport_id: ViewportId::ROOT,
            ..RawInput::default()
        };
        let (app, frame) = (&mut self.app, &mut self.frame);
        let mut output = self.ctx.run_ui(input, |ui| app.ui(ui, frame));
        output.textures_delta.clear();
        let primitives = self.ctx.tessellate(output.shapes, output.pixels_per_point);
        primitives.len()
    }

    fn key(&mut self, key: Key, modifiers: Modifiers) {
        let event =
            |pressed| Event::Key { key, physical_key: None, pressed, repeat: false, modifiers };
        self.frame(vec![Event::ModifiersChanged(modifiers), event(true)]);
        self.frame(vec![event(false), Event::ModifiersChanged(Modifiers::NONE)]);
        self.frame(Vec::new());
    }

    fn button(&mut self, pos: Pos2, button: PointerButton, pressed: bool) {
        let modifiers = Modifiers::NONE;
        let event = Event::PointerButton { pos, button, pressed, modifiers };
        self.frame(vec![Event::PointerMoved(pos), event]);
    }

    /// Where a place of the bay is in plan.
    fn in_plan(&self, point: DVec3) -> Pos2 {
        let canvas = self.app.canvas();
        let area = canvas.areas[View::Plan.index()];
        let at = canvas.cameras.of(View::Plan).to_screen(area, View::Plan.project(point));
        pos2(at.x as f32, at.y as f32)
    }

    /// The first corner of the last hose.
    fn first_corner(&self) -> DVec3 {
        self.app.document().expect("a bay").bay().routings[0].runs[HOSES - 1].via[0].at()
    }

    /// A place on the last hose, as a share of its length.
    fn on_last_hose(&self, share: f64) -> DVec3 {
        let bay = self.app.document().expect("a bay").bay();
        let solution = solve_whole(bay, &bay.routings[0]);
        let run = solution.run(HOSES - 1).expect("a solved hose");
        run.centre_line.point_at(share * run.centreline_mm)
    }

    /// How many corners and clamps the last hose has.
    fn corners(&self) -> usize {
        self.app.document().expect("a bay").bay().routings[0].runs[HOSES - 1].via.len()
    }

    /// Takes hold of the clamp of the last hose in plan.
    fn take_hold(&mut self) -> Pos2 {
        let bay = self.app.document().expect("a bay").bay();
        let via = bay.routings[0].runs[HOSES - 1].via[1].at();
        self.take_hold_at(via)
    }

    /// Takes hold of what is there in plan.
    fn take_hold_at(&mut self, place: DVec3) -> Pos2 {
        let at = self.in_plan(place);
        self.frame(vec![Event::PointerMoved(at)]);
        self.frame(vec![Event::PointerMoved(at)]);
        self.button(at, PointerButton::Primary, true);
        at
    }
}

/// Drags the clamp of the last hose from place to place, one a round.
fn drag_clamp(bencher: Bencher<'_, '_>, mut bench: Bench) {
    let from = bench.take_hold();
    drag(bencher, bench, from);
}

/// Drags what is held from place to place, one a round; every frame has to change the bay.
fn drag(bencher: Bencher<'_, '_>, mut bench: Bench, from: Pos2) {
    let mut k = 0_u32;
    let mut step = |bench: &mut Bench| {
        k += 1;
        let off = Vec2::angled(k as f32 * 0.3) * 40.0;
        bench.frame(vec![Event::PointerMoved(from + off)])
    };
    step(&mut bench);
    let before = bench.app.document().expect("a bay").revision();
    step(&mut bench);
    step(&mut bench);
    let after = bench.app.document().expect("a bay").revision();
    assert!(after > before, "the drag moves something");
    bencher.bench_local(|| black_box(step(&mut bench)));
}

#[divan::bench]
fn drag_step_in_three_views(bencher: Bencher<'_, '_>) {
    drag_clamp(bencher, Bench::with_three_views(Hoses::Apart));
}

/// The same beside a mesh of 200 000 triangles.
/// To be set beside [`pull_a_bend_in_three_views`]: a corner that is there already.
#[divan::bench]
fn drag_corner_in_three_views(bencher: Bencher<'_, '_>) {
    let mut bench = Bench::with_three_views(Hoses::Apart);
    let from = bench.take_hold_at(bench.first_corner());
    drag(bencher, bench, from);
}

#[divan::bench]
fn pull_a_bend_in_three_views(bencher: Bencher<'_, '_>) {
    let mut bench = Bench::with_three_views(Hoses::Apart);
    let count = bench.corners();
    let from = bench.take_hold_at(bench.on_last_hose(0.35));
    bench.frame(vec![Event::PointerMoved(from + Vec2::new(9.0, 30.0))]);
    assert_eq!(bench.corners(), count + 1, "a bend is pulled out");
    drag(bencher, bench, from);
}

#[divan::bench]
fn drag_step_in_three_views_beside_a_large_mesh(bencher: Bencher<'_, '_>) {
    drag_clamp(bencher, Bench::with_mesh());
}

#[divan::bench]
fn drag_step_in_four_views(bencher: Bencher<'_, '_>) {
    drag_clamp(bencher, Bench::new(Hoses::Apart));
}

#[divan::bench]
fn drag_step_in_three_views_of_a_tangle(bencher: Bencher<'_, '_>) {
    drag_clamp(bencher, Bench::with_three_views(Hoses::Tangled));
}

/// The pointer wanders over the plan, over hoses, ports and obstacles.
#[divan::bench]
fn hover_in_four_views(bencher: Bencher<'_, '_>) {
    let mut bench = Bench::new(Hoses::Apart);
    let middle = bench.in_plan(DVec3::new(750.0, 450.0, 0.0));
    let mut k = 0_u32;
    bencher.bench_local(|| {
        k += 1;
        let at = middle + Vec2::angled(k as f32 * 0.37) * (k % 90) as f32;
        black_box(bench.frame(vec![Event::PointerMoved(at)]))
    });
}

/// Nothing moves: what a frame costs that something else asked for.
#[divan::bench]
fn still_in_four_views(bencher: Bencher<'_, '_>) {
    let mut bench = Bench::new(Hoses::Apart);
    bencher.bench_local(|| black_box(bench.frame(Vec::new())));
}

/// The paper is moved: everything stands elsewhere.
#[divan::bench]
fn pan_in_three_views(bencher: Bencher<'_, '_>) {
    let mut bench = Bench::with_three_views(Hoses::Apart);
    let at = bench.in_plan(DVec3::new(40.0, 1000.0, 0.0));
    bench.button(at, PointerButton::Middle, true);
    let mut k = 0_u32;
    bencher.bench_local(|| {
        k += 1;
        black_box(bench.frame(vec![Event::PointerMoved(at + Vec2::angled(k as f32 * 0.3) * 30.0)]))
    });
}

/// The turning view on the whole board is turned.
#[divan::bench]
fn turn_large(bencher: Bencher<'_, '_>) {
    let mut bench = Bench::new(Hoses::Apart);
    bench.key(Key::Num4, Modifiers::NONE);
    let at = pos2(500.0, 400.0);
    bench.button(at, PointerButton::Secondary, true);
    let mut k = 0_u32;
    bencher.bench_local(|| {
        k += 1;
        black_box(bench.frame(vec![Event::PointerMoved(at + Vec2::angled(k as f32 * 0.3) * 30.0)]))
    });
}
