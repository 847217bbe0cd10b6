//! The drawing: three views of the bay. [`scene`] is what there is, [`layout`] where it is on the
//! screen and what is under the pointer, `paint` how it looks; [`pointer`] tells what is done there.

pub mod camera;
mod interact;
pub mod layout;
mod menu;
pub mod outline;
mod overlay;
mod paint;
pub mod pointer;
pub mod scene;
pub mod snap;
pub mod thing;

use eframe::egui::{self, Rect, Ui, pos2, vec2};
use glam::{DVec2, DVec3, dvec2};

use self::camera::{Area, Cameras, View};
use self::layout::{Hit, Marker, Naming, Open, ViewLayout};
use self::pointer::Pointer;
use self::scene::Scene;
use self::thing::Thing;
use super::actions::Action;
use super::state::Chosen;
use super::theme::{self, size};
use super::tools::{Drag, Sketch, Tool};
use crate::model::Bay;

/// How the drawing is looked at. No part of the document.
#[derive(Debug, Clone)]
pub struct Canvas {
    /// The cameras of the views.
    pub cameras: Cameras,
    /// Where the views were last.
    pub areas: [Area; 3],
    /// Share of the width and of the height that the plan view takes.
    split: DVec2,
    /// Whether the whole bay is to be shown: until the user looks elsewhere, also when the window
    /// changes its size.
    fitted: bool,
    fitted_in: [Area; 3],
    /// What is under the pointer.
    hover: Option<Hover>,
    pointer: Pointer,
    /// Buttons that lie on the views.
    covered: Vec<Rect>,
    /// What the menu was opened on.
    menu: Option<MenuAt>,
    /// The view that the pointer was in last.
    pub active: View,
    /// Where the bench strip is pointed at.
    pub(super) on_strip: Option<OnStrip>,
    /// Whether `hover` came from there.
    hover_is_on_strip: bool,
    /// On which side of its place the call-out stands: the same while something is held.
    call_out_side: Option<usize>,
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
            split: dvec2(0.64, 0.5),
            fitted: true,
            fitted_in: [Area::default(); 3],
            hover: None,
            pointer: Pointer::default(),
            covered: Vec::new(),
            menu: None,
            active: View::Plan,
            on_strip: None,
            hover_is_on_strip: false,
            call_out_side: None,
        }
    }
}

/// What is under the pointer.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Hover {
    thing: Thing,
    point: DVec3,
    /// On a hose, how far along its drawn centre line, mm.
    along_mm: Option<f64>,
}

/// A place on the bench strip: on the chosen hose, and the clamp or corner there.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct OnStrip {
    pub(super) thing: Thing,
    /// Along the drawn centre line, mm.
    pub(super) at_mm: f64,
    pub(super) by: PointedBy,
}

/// What points: the pointer goes before the keys.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum PointedBy {
    Pointer,
    Keys,
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
    /// The one that speaks where none is looked at.
    pub(super) speaking: Option<usize>,
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

    /// The place in the views of a place on the bench strip.
    fn on_strip(on: &OnStrip, looking: &Looking<'_>) -> Option<Self> {
        let mark =
            looking.scene.hoses.iter().find(|hose| Some(hose.run.as_str()) == looking.run)?;
        let point = mark.line.point_at(on.at_mm);
        Some(Self { thing: on.thing.clone(), point, along_mm: Some(on.at_mm) })
    }
}

/// The places of the three views and of the free quarter.
#[derive(Debug, Clone, Copy)]
pub(super) struct Quarters {
    views: [Rect; 3],
    /// Plan's right-hand neighbour: the list of hoses.
    pub(super) free: Rect,
}

const GAP: f32 = 8.0;

impl Canvas {
    /// The place that is lit in every view, because it is pointed at there or on the bench strip.
    pub fn lit_at(&self) -> Option<DVec3> {
        self.hover.as_ref().map(|hover| hover.point)
    }

    /// The thing that a view is pointed at.
    pub(super) fn pointed_thing(&self) -> Option<&Thing> {
        self.hover.as_ref().filter(|_| !self.hover_is_on_strip).map(|hover| &hover.thing)
    }

    /// Where on this hose a view is pointed at, mm along its drawn centre line.
    pub(super) fn pointed_along(&self, run: &str) -> Option<f64> {
        if self.hover_is_on_strip {
            return None;
        }
        let hover = self.hover.as_ref().filter(|hover| hover.thing.run() == Some(run))?;
        hover.along_mm
    }

    /// Shows the whole bay.
    pub(super) fn want_fit(&mut self) {
        self.fitted = true;
        self.fitted_in = [Area::default(); 3];
    }

    /// The cameras, to look elsewhere.
    pub(super) fn look(&mut self) -> &mut Cameras {
        self.fitted = false;
        &mut self.cameras
    }

    /// Divides the drawing board.
    pub(super) fn quarters(&self, board: Rect) -> Quarters {
        let room = board.size() - vec2(GAP, GAP);
        // The list of hoses wants a readable width, the views something to look at.
        let left = (room.x * self.split.x as f32).min(room.x - 250.0).max(room.x * 0.4).round();
        let top = (room.y * self.split.y as f32).round();
        let (x, y) = (board.min.x + left, board.min.y + top);
        let max = board.max;
        Quarters {
            views: [
                Rect::from_min_max(board.min, pos2(x, y)),
                Rect::from_min_max(pos2(board.min.x, y + GAP), pos2(x, max.y)),
                Rect::from_min_max(pos2(x + GAP, y + GAP), max),
            ],
            free: Rect::from_min_max(pos2(x + GAP, board.min.y), pos2(max.x, y)),
        }
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
        let no_names = Naming {
            measure: &|_| DVec2::ZERO,
            first: &[],
            thing: None,
            finding: None,
            pointer: None,
        };
        let layout = layout::lay_out(scene, view, area, camera, &no_names);
        let open = Open { run: chosen.run.as_deref(), finding: None };
        layout.things_in(scene, Area { min: a.min(b), max: a.max(b) }, open)
    }

    fn fit_if_wanted(&mut self, scene: &Scene) {
        if self.fitted && self.fitted_in != self.areas {
            self.fitted_in = self.areas;
            let bounds = scene.bounds.unwrap_or((DVec3::splat(-300.0), DVec3::splat(300.0)));
            self.cameras.fit(bounds, self.areas);
        }
    }

    /// Gives each view the share of the board that its side of the bay asks for.
    fn divide_for(&mut self, (min, max): (DVec3, DVec3)) {
        let extent = (max - min).max(DVec3::splat(1.0));
        self.split = dvec2(
            (extent.x / (extent.x + extent.y)).clamp(0.5, 0.7),
            (extent.y / (extent.y + extent.z)).clamp(0.42, 0.6),
        );
    }

    /// Before the board is divided: the shares follow the bay when it is to be fitted.
    pub(super) fn prepare(&mut self, scene: &Scene) {
        if let (true, Some(bounds)) = (self.fitted_in == [Area::default(); 3], scene.bounds) {
            self.divide_for(bounds);
        }
    }
}

/// Shows the views, and tells what was done in them.
pub(super) fn show(
    ui: &mut Ui,
    canvas: &mut Canvas,
    quarters: Quarters,
    looking: &Looking<'_>,
    actions: &mut Vec<Action>,
) {
    canvas.areas = quarters.views.map(paint::area);
    canvas.fit_if_wanted(looking.scene);
    let first = named_first(canvas, looking);
    let pointer = ui.input(|i| i.pointer.hover_pos());
    let pointer = pointer.map(|p| dvec2(f64::from(p.x), f64::from(p.y)));
    let layouts = {
        let painter = ui.painter();
        let measure = |text: &str| {
            let galley = painter.layout_no_wrap(
                text.to_owned(),
                theme::font(size::SMALL),
                egui::Color32::PLACEHOLDER,
            );
            dvec2(f64::from(galley.size().x), f64::from(galley.size().y))
        };
        View::ALL.map(|view| {
            let (area, camera) = (canvas.areas[view.index()], canvas.cameras.of(view));
            let naming = Naming {
                measure: &measure,
                first: &first,
                thing: canvas.hover.as_ref().map(|hover| &hover.thing),
                finding: looking.finding,
                pointer,
            };
            layout::lay_out(looking.scene, view, area, camera, &naming)
        })
    };
    let mut pointed = interact::views(ui, canvas, &layouts, looking, actions);
    canvas.hover_is_on_strip = false;
    if let Some(on) = &canvas.on_strip
        && (pointed.hover.is_none() || on.by == PointedBy::Pointer)
    {
        pointed.hover = Hover::on_strip(on, looking);
        canvas.hover_is_on_strip = true;
    }
    let focused = ui.memory(egui::Memory::focused).is_some();
    if let (false, false, Some(by)) = (focused, looking.chosen.is_empty(), interact::arrows(ui)) {
        actions.push(Action::Nudge { thing: None, view: canvas.active, by });
    }
    if canvas.hover != pointed.hover {
        // Names follow what is pointed at.
        canvas.hover = pointed.hover;
        ui.ctx().request_repaint();
    }
    paint_all(ui, canvas, &layouts, looking, pointed.finding);
    canvas.covered = overlay::corner_buttons(ui, canvas, quarters.views[0], actions);
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
    layouts: &[ViewLayout; 3],
    looking: &Looking<'_>,
    pointed: Option<(View, usize)>,
) {
    let colours = theme::palette(ui);
    let held = looking.drag.and_then(|drag| {
        let thing = drag.lead()?;
        let point = thing.place(looking.bay, looking.option)?;
        Some(Hover { thing, point, along_mm: None })
    });
    let lit = held.or_else(|| canvas.hover.clone());
    let lit = lit.as_ref();
    let emphasis = paint::Emphasis {
        run: looking.run,
        thing: lit.map(|hover| &hover.thing),
        finding: pointed.map(|(_, finding)| finding).or(looking.finding),
    };
    let called = called_out(layouts, looking, pointed);
    for layout in layouts {
        let painter = ui.painter_at(paint::rect(layout.area));
        let call_out = called.filter(|(view, _)| *view == layout.view).and_then(|(_, marker)| {
            let mark = looking.scene.findings.iter().find(|m| m.index == marker.finding)?;
            let side = canvas.call_out_side.filter(|_| looking.drag.is_some());
            let call_out = paint::CallOut::new(&painter, layout, marker, mark, side, colours);
            canvas.call_out_side = Some(call_out.side);
            Some(call_out)
        });
        paint::view(&painter, looking.scene, layout, emphasis, call_out.as_ref(), colours);
        paint::chosen(&painter, looking.scene, layout, looking.chosen, colours);
        paint::under_way(&painter, layout, looking, colours);
        if let Some(hover) = lit {
            paint::cross(&painter, layout, hover.point, colours);
        }
        if let Some(call_out) = call_out {
            call_out.paint(&painter, colours);
        }
    }
    if let Some((drag, snapped)) =
        looking.drag.and_then(|drag| Some((drag, drag.snapped.as_ref()?)))
    {
        let layout = &layouts[drag.view.index()];
        let pointer = ui.input(|i| i.pointer.hover_pos());
        let figures = looking.figures.as_ref().zip(pointer);
        let figures = figures.map(|(lines, at)| overlay::figures_frame(ui, at, lines));
        let painter = ui.painter_at(paint::rect(layout.area));
        paint::guides(&painter, layout, snapped, figures.as_slice(), colours);
    }
    if let Some(hover) = lit {
        paint::tie(ui.painter(), layouts, hover.point, colours);
    }
    if let (Some(lines), Some(at)) = (&looking.figures, ui.input(|i| i.pointer.hover_pos())) {
        overlay::riding_figures(ui, at, lines);
    }
}

/// The finding that speaks, and in which view: the one pointed at, the one looked at, or the worst
/// of the hose whose card is shown.
fn called_out<'a>(
    layouts: &'a [ViewLayout; 3],
    looking: &Looking<'_>,
    pointed: Option<(View, usize)>,
) -> Option<(View, &'a Marker)> {
    let marker_in = |layout: &'a ViewLayout, finding: usize| {
        layout.markers.iter().find(|marker| marker.finding == finding)
    };
    if let Some((view, finding)) = pointed {
        return Some((view, marker_in(&layouts[view.index()], finding)?));
    }
    let finding = looking.finding.or(looking.speaking)?;
    layouts.iter().find_map(|layout| {
        let marker = marker_in(layout, finding)?;
        layout.area.grown(-8.0).contains(marker.at).then_some((layout.view, marker))
    })
}
