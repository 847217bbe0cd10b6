//! The drawing: three views of the bay and one that turns. [`scene`] is what there is, [`layout`]
//! where it is on the screen and what is under the pointer, `paint` how it looks; [`pointer`] tells
//! what is done there.

pub mod camera;
mod interact;
pub mod layout;
mod menu;
pub mod outline;
mod overlay;
mod paint;
pub mod panes;
pub mod pointer;
pub mod scene;
pub mod snap;
pub mod thing;
pub mod turn;

use std::path::Path;
use std::sync::Arc;

use eframe::egui::{self, Rect, Ui};
use glam::{DVec2, DVec3, dvec2};

use self::camera::{Area, Cameras, View};
use self::layout::{Hit, Label, Marker, Naming, Open, ViewLayout};
use self::panes::{Pane, Panes};
use self::pointer::Pointer;
use self::scene::Scene;
use self::thing::Thing;
use self::turn::{Deed, Turning};
use super::actions::Action;
use super::state::Chosen;
use super::theme::{self, size};
use super::tools::{Drag, Sketch, Tool};
use super::underlay::picking::Picking;
use super::underlay::store::Store;
use crate::model::Bay;

/// How the drawing is looked at. No part of the document.
#[derive(Debug, Clone)]
pub struct Canvas {
    /// The cameras of the views.
    pub cameras: Cameras,
    /// Where the views were last; without size where they are not shown.
    pub areas: [Area; 3],
    /// Which views are shown.
    pub panes: Panes,
    /// The turning view.
    pub turning: Turning,
    /// The option to be seen behind the one in view.
    pub ghost: Option<usize>,
    /// Share of the width and of the height that the plan view takes.
    split: DVec2,
    /// Whether the whole bay is to be shown: until the user looks elsewhere, also when the window
    /// changes its size.
    fitted: bool,
    fitted_in: [Area; 4],
    turning_area: Area,
    /// What is under the pointer.
    hover: Option<Hover>,
    kept: [KeptView; 3],
    turned: paint::Turned,
    pointer: Pointer,
    /// Buttons that lie on the views.
    covered: Vec<Rect>,
    /// What the menu was opened on.
    menu: Option<MenuAt>,
    /// The view that the pointer was in last.
    pub active: View,
    /// Where the bench strip is pointed at, mm along the drawn centre line of the chosen hose.
    pub(super) strip_mm: Option<f64>,
}

/// Where a menu was opened.
#[derive(Debug, Clone)]
pub(super) struct MenuAt {
    view: View,
    at_mm: DVec2,
    hit: Option<Hit>,
}

impl Default for Canvas {
    fn default() -> Self {
        Self {
            cameras: Cameras::default(),
            areas: [Area::default(); 3],
            panes: Panes::default(),
            turning: Turning::default(),
            ghost: None,
            split: dvec2(0.64, 0.5),
            fitted: true,
            fitted_in: [Area::default(); 4],
            turning_area: Area::default(),
            hover: None,
            kept: Default::default(),
            turned: paint::Turned::default(),
            pointer: Pointer::default(),
            covered: Vec::new(),
            menu: None,
            active: View::Plan,
            strip_mm: None,
        }
    }
}

/// What is kept of a view from frame to frame.
#[derive(Debug, Clone, Default)]
struct KeptView {
    scene: Option<Arc<()>>,
    layout: Option<Arc<ViewLayout>>,
    named: Option<Named>,
    painted: paint::Kept,
    call_out: paint::BoxPlace,
}

/// What the names of a view depend on besides what is in it.
#[derive(Debug, Clone, PartialEq)]
struct Named {
    first: Vec<usize>,
    via: Option<Thing>,
    finding: Option<usize>,
    buttons: f64,
    /// Whether something is being moved: what is not stays named as it is.
    moving: bool,
}

/// What is under the pointer.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Hover {
    thing: Thing,
    point: DVec3,
    /// On a hose, how far along its drawn centre line, mm.
    along_mm: Option<f64>,
}

/// What the canvas shows.
pub(super) struct Looking<'a> {
    pub(super) scene: &'a Scene,
    pub(super) bay: &'a Bay,
    pub(super) option: usize,
    /// The hose whose card is shown.
    pub(super) run: Option<&'a str>,
    /// The finding that is looked at.
    pub(super) finding: Option<usize>,
    /// What is chosen.
    pub(super) chosen: &'a [Thing],
    pub(super) tool: Tool,
    /// What is held.
    pub(super) drag: Option<&'a Drag>,
    /// A hose that is begun.
    pub(super) sketch: Option<&'a Sketch>,
    pub(super) sketching: bool,
    /// A measure taken.
    pub(super) tape: Option<(View, DVec3, DVec3)>,
    /// What rides with the pointer meanwhile.
    pub(super) figures: Option<Vec<String>>,
    /// What lies under the views.
    pub(super) under: Under<'a>,
}

/// What lies under the views: files that were read, and points being picked.
pub(super) struct Under<'a> {
    pub(super) store: &'a Store,
    /// The folder that files are named from.
    pub(super) folder: Option<&'a Path>,
    /// The one that the panel shows.
    pub(super) chosen: Option<&'a str>,
    pub(super) picking: Option<&'a Picking>,
}

impl Hover {
    /// A thing under the pointer; a hose at a place along it, or in its middle.
    pub(super) fn of(thing: Thing, along_mm: Option<f64>, looking: &Looking<'_>) -> Option<Self> {
        let point = match &thing {
            Thing::Hose(run) => {
                let mark = looking.scene.hoses.iter().find(|hose| hose.run == *run)?;
                mark.line.point_at(along_mm.unwrap_or(mark.line.length() / 2.0))
            }
            thing => thing.place(looking.bay, looking.option)?,
        };
        Some(Self { thing, point, along_mm })
    }
}

/// Where a bay is looked for that has nothing in it.
const EMPTY: (DVec3, DVec3) = (DVec3::splat(-300.0), DVec3::splat(300.0));

impl Canvas {
    /// Where on this hose the pointer is, mm along its drawn centre line.
    pub(super) fn pointed_along(&self, run: &str) -> Option<f64> {
        let hover = self.hover.as_ref().filter(|hover| hover.thing.run() == Some(run))?;
        hover.along_mm
    }

    /// Shows the whole bay.
    pub(super) fn want_fit(&mut self) {
        self.fitted = true;
        self.fitted_in = [Area::default(); 4];
    }

    /// The cameras, to look elsewhere.
    pub(super) fn look(&mut self) -> &mut Cameras {
        self.fitted = false;
        &mut self.cameras
    }

    /// Shows a box as large as it goes, in every view.
    pub(super) fn fit_box(&mut self, bounds: (DVec3, DVec3)) {
        let areas = self.areas;
        self.look().fit(bounds, areas);
        self.turning.fit(bounds, self.turning_area);
    }

    /// The things that lie wholly between two places of a view.
    pub(super) fn things_between(
        &self,
        scene: &Scene,
        view: View,
        from: DVec2,
        to: DVec2,
        chosen: &Chosen,
    ) -> Vec<Thing> {
        let (area, camera) = (self.areas[view.index()], self.cameras.of(view));
        let [a, b] = [from, to].map(|place| camera.to_screen(area, place));
        let layout = layout::place(scene, view, area, camera, None);
        let open = Open { run: chosen.run.as_deref(), finding: None };
        layout.things_in(scene, Area { min: a.min(b), max: a.max(b) }, open)
    }

    /// Does what was asked of the turning view.
    pub(super) fn turn(&mut self, deed: Deed, bounds: Option<(DVec3, DVec3)>) {
        if matches!(deed, Deed::Pan(_) | Deed::Zoom { .. }) {
            self.fitted = false;
        }
        self.turning.act(deed, bounds.unwrap_or(EMPTY));
    }

    /// Whether a point is to be seen in every view that is shown.
    pub(super) fn shows(&self, point: DVec3) -> bool {
        View::ALL.into_iter().all(|view| {
            let area = self.areas[view.index()];
            area.size() == DVec2::ZERO
                || area.contains(self.cameras.of(view).to_screen(area, view.project(point)))
        })
    }

    /// Before the board is divided: the shares follow the bay when it is to be fitted.
    pub(super) fn prepare(&mut self, scene: &Scene) {
        if let (true, Some(bounds)) = (self.fitted_in == [Area::default(); 4], scene.bounds) {
            self.divide_for(bounds);
        }
    }

    /// Gives each view the share of the board that its side of the bay asks for.
    fn divide_for(&mut self, (min, max): (DVec3, DVec3)) {
        let extent = (max - min).max(DVec3::splat(1.0));
        self.split = dvec2(
            (extent.x / (extent.x + extent.y)).clamp(0.5, 0.62),
            (extent.y / (extent.y + extent.z)).clamp(0.42, 0.6),
        );
    }

    /// Divides the board among the views that are shown.
    fn divide(&mut self, board: Rect) -> [Option<Area>; 4] {
        let places = self.panes.divide(paint::area(board), self.split);
        let [plan, side, front, turning] = places.map(Option::unwrap_or_default);
        self.areas = [plan, side, front];
        self.turning_area = turning;
        self.cameras.stand(self.areas);
        places
    }

    fn fit_if_wanted(&mut self, scene: &Scene) {
        let [plan, side, front] = self.areas;
        let areas = [plan, side, front, self.turning_area];
        if self.fitted && self.fitted_in != areas {
            self.fitted_in = areas;
            let bounds = scene.bounds.unwrap_or(EMPTY);
            self.cameras.fit(bounds, self.areas);
            self.turning.fit(bounds, self.turning_area);
        }
        if !self.turning.is_fitted() {
            self.turning.fit(scene.bounds.unwrap_or(EMPTY), self.turning_area);
        }
    }

    /// A view laid out: what is as it was is not worked out again.
    fn lay_out(
        &mut self,
        view: View,
        scene: &Scene,
        named: Named,
        measure: &dyn Fn(&str) -> DVec2,
    ) -> Arc<ViewLayout> {
        let (area, camera) = (self.areas[view.index()], self.cameras.of(view));
        let kept = &mut self.kept[view.index()];
        let same = kept.scene.as_ref().is_some_and(|old| Arc::ptr_eq(old, scene.identity()));
        let fits = |old: &&Arc<ViewLayout>| same && old.area == area && old.camera == camera;
        let before = kept.layout.clone();
        if kept.layout.as_ref().filter(fits).is_none() {
            let placed = layout::place(scene, view, area, camera, kept.layout.as_deref());
            kept.layout = Some(Arc::new(placed));
            kept.scene = Some(Arc::clone(scene.identity()));
            kept.named = None;
        }
        let layout = kept
            .layout
            .get_or_insert_with(|| Arc::new(layout::place(scene, view, area, camera, None)));
        if kept.named.as_ref() != Some(&named) {
            let naming = Naming {
                measure,
                first: &named.first,
                thing: named.via.as_ref(),
                finding: named.finding,
                buttons: named.buttons,
            };
            let labels = match before.filter(|_| named.moving) {
                Some(before) => layout::name_on(scene, layout, &naming, &before),
                None => layout::name(scene, layout, &naming),
            };
            Arc::make_mut(layout).labels = labels;
            kept.named = Some(named);
        }
        Arc::clone(layout)
    }
}

/// The size of a text on the drawing.
fn measure(painter: &egui::Painter, text: &str) -> DVec2 {
    let font = theme::font(size::SMALL);
    let galley = painter.layout_no_wrap(text.to_owned(), font, egui::Color32::PLACEHOLDER);
    dvec2(f64::from(galley.size().x), f64::from(galley.size().y))
}

/// Shows the views on the board, and tells what was done in them.
pub(super) fn show(
    ui: &mut Ui,
    canvas: &mut Canvas,
    board: Rect,
    looking: &Looking<'_>,
    actions: &mut Vec<Action>,
) {
    canvas.divide(board);
    canvas.fit_if_wanted(looking.scene);
    let layouts = lay_out_all(ui, canvas, looking);
    let mut pointed = interact::views(ui, canvas, &layouts, looking, actions);
    if let (None, Some(at), Some(run)) = (&pointed.hover, canvas.strip_mm, looking.run) {
        pointed.hover = Hover::of(Thing::Hose(run.to_owned()), Some(at), looking);
    }
    let focused = ui.memory(egui::Memory::focused).is_some();
    if let (false, false, Some(by)) = (focused, looking.chosen.is_empty(), interact::arrows(ui)) {
        actions.push(Action::Nudge { thing: None, view: canvas.active, by });
    }
    let mut solid = None;
    if canvas.panes.shows(Pane::Turning) {
        let per_point = f64::from(ui.pixels_per_point());
        let picture = canvas.turning.draw(looking.scene, canvas.turning_area, per_point);
        solid = turn::show(ui, picture, looking, &mut pointed, actions);
    }
    if canvas.hover != pointed.hover {
        // Names follow what is pointed at.
        canvas.hover = pointed.hover;
        ui.ctx().request_repaint();
    }
    paint_all(ui, canvas, &layouts, looking, pointed.finding, solid);
    canvas.covered = overlay::corners(ui, canvas, actions);
}

fn lay_out_all(ui: &Ui, canvas: &mut Canvas, looking: &Looking<'_>) -> Vec<Arc<ViewLayout>> {
    let first = named_first(canvas, looking);
    let thing = canvas.hover.as_ref().map(|hover| &hover.thing);
    let via = thing.filter(|thing| matches!(thing, Thing::Via { .. })).cloned();
    let painter = ui.painter();
    let shown = View::ALL.into_iter().filter(|view| canvas.panes.shows((*view).into()));
    let shown: Vec<View> = shown.collect();
    shown
        .into_iter()
        .map(|view| {
            let named = Named {
                first: first.clone(),
                via: via.clone(),
                finding: looking.finding,
                buttons: overlay::width(&canvas.panes, view.into()),
                moving: looking.drag.is_some(),
            };
            canvas.lay_out(view, looking.scene, named, &|text| measure(painter, text))
        })
        .collect()
}

/// The ports whose names come first: that under the pointer, and those of the chosen hose.
fn named_first(canvas: &Canvas, looking: &Looking<'_>) -> Vec<usize> {
    let mut ids: Vec<&str> = Vec::new();
    if let Some(Hover { thing: Thing::Port(id), .. }) = &canvas.hover {
        ids.push(id);
    }
    let runs = looking.bay.options.get(looking.option).map(|o| o.runs.as_slice());
    let chosen = runs.unwrap_or_default().iter().find(|run| Some(run.id.as_str()) == looking.run);
    if let Some(run) = chosen {
        ids.extend([run.from.port.as_str(), run.to.port.as_str()]);
    }
    let ports = &looking.scene.ports;
    ids.iter().filter_map(|id| ports.iter().position(|port| port.id == *id)).collect()
}

fn paint_all(
    ui: &Ui,
    canvas: &mut Canvas,
    layouts: &[Arc<ViewLayout>],
    looking: &Looking<'_>,
    pointed: Option<(View, usize)>,
    solid: Option<(usize, DVec2)>,
) {
    let colours = theme::palette(ui);
    let held = looking.drag.and_then(|drag| {
        let thing = drag.lead()?;
        let point = thing.place(looking.bay, looking.option)?;
        Some(Hover { thing, point, along_mm: None })
    });
    let lit = held.or_else(|| canvas.hover.clone());
    let emphasis = paint::Emphasis {
        run: looking.run,
        thing: lit.as_ref().map(|hover| &hover.thing),
        finding: pointed.map(|(_, finding)| finding).or(looking.finding),
    };
    let called = called_out(layouts, looking, pointed);
    for layout in layouts {
        let painter = ui.painter_at(paint::rect(layout.area));
        let call_out = called.filter(|(view, _)| *view == layout.view).and_then(|(_, marker)| {
            let mark = looking.scene.findings.iter().find(|m| m.index == marker.finding)?;
            let kept = &mut canvas.kept[layout.view.index()].call_out;
            Some(paint::CallOut::new(&painter, layout, (marker, mark), kept, colours))
        });
        let name = pointed_name(ui, layout, looking);
        let over = paint::Over { call_out: call_out.as_ref(), pointed: name.as_ref() };
        let kept = &mut canvas.kept[layout.view.index()].painted;
        paint::view(&painter, looking, layout, emphasis, &over, kept, colours);
        paint::chosen(&painter, looking.scene, layout, looking.chosen, colours);
        paint::under_way(&painter, layout, looking, colours);
        paint::picked(&painter, layout, looking, colours);
        if let Some(hover) = &lit {
            paint::cross(&painter, layout, hover.point, colours);
        }
        if let Some(call_out) = call_out {
            call_out.paint(&painter, colours);
        }
    }
    if canvas.panes.shows(Pane::Turning) {
        let painter = ui.painter_at(paint::rect(canvas.turning_area));
        let picture = canvas.turning.picture();
        let turned = &mut canvas.turned;
        paint::turning(&painter, looking.scene, picture, emphasis, solid, turned, colours);
        if let Some(hover) = &lit {
            paint::cross_in(&painter, picture, hover.point, colours);
        }
    }
    let snapped = looking.drag.and_then(|drag| Some((drag, drag.snapped.as_ref()?)));
    let held_in = |view: View| layouts.iter().find(|layout| layout.view == view);
    if let Some((layout, snapped)) = snapped.and_then(|(d, s)| Some((held_in(d.view)?, s))) {
        let pointer = ui.input(|i| i.pointer.hover_pos());
        let figures = looking.figures.as_ref().zip(pointer);
        let figures = figures.map(|(lines, at)| overlay::figures_frame(ui, at, lines));
        let painter = ui.painter_at(paint::rect(layout.area));
        paint::guides(&painter, layout, snapped, figures.as_slice(), colours);
    }
    if let Some(hover) = &lit {
        paint::tie(ui.painter(), layouts, hover.point, colours);
    }
    if let (Some(lines), Some(at)) = (&looking.figures, ui.input(|i| i.pointer.hover_pos())) {
        overlay::riding_figures(ui, at, lines);
    }
}

/// The name of the solid under the pointer.
fn pointed_name(ui: &Ui, layout: &ViewLayout, looking: &Looking<'_>) -> Option<Label> {
    let at = ui.input(|i| i.pointer.hover_pos())?;
    let at = dvec2(f64::from(at.x), f64::from(at.y));
    layout::pointed_solid(looking.scene, layout, at, &|text| measure(ui.painter(), text))
}

/// The finding that speaks, and in which view: the one pointed at, the one looked at, or the worst
/// of the hose whose card is shown.
fn called_out<'a>(
    layouts: &'a [Arc<ViewLayout>],
    looking: &Looking<'_>,
    pointed: Option<(View, usize)>,
) -> Option<(View, &'a Marker)> {
    let marker_in = |layout: &'a ViewLayout, finding: usize| {
        layout.markers.iter().find(|marker| marker.finding == finding)
    };
    if let Some((view, finding)) = pointed {
        let layout = layouts.iter().find(|layout| layout.view == view)?;
        return Some((view, marker_in(layout, finding)?));
    }
    let worst = || {
        let own = looking.scene.findings.iter().filter(|mark| {
            mark.run.is_some()
                && mark.run.as_deref() == looking.run
                && mark.severity != crate::checks::Severity::Note
        });
        own.min_by_key(|mark| (mark.severity, mark.index)).map(|mark| mark.index)
    };
    let finding = looking.finding.or_else(worst)?;
    layouts.iter().find_map(|layout| {
        let marker = marker_in(layout, finding)?;
        layout.area.grown(-8.0).contains(marker.at).then_some((layout.view, marker))
    })
}
