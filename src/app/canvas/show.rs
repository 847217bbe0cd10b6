//! One frame of the views: lay out, hear the pointer, paint.

use std::sync::Arc;

use eframe::egui::{self, Rect, Ui};
use glam::{DVec2, dvec2};

use super::camera::View;
use super::layout::{Label, Marker, ViewLayout};
use super::looking::{Hover, Looking, PointedBy};
use super::panes::Pane;
use super::thing::Thing;
use super::{Canvas, Named, interact, layout, overlay, paint, turn};
use crate::app::actions::Action;
use crate::app::theme::{self, size};

/// The size of a text on the drawing.
fn measure(painter: &egui::Painter, text: &str) -> DVec2 {
    let font = theme::font(size::SMALL);
    let galley = painter.layout_no_wrap(text.to_owned(), font, egui::Color32::PLACEHOLDER);
    dvec2(f64::from(galley.size().x), f64::from(galley.size().y))
}

/// Shows the views on the board, and tells what was done in them.
pub(in crate::app) fn show(
    ui: &mut Ui,
    canvas: &mut Canvas,
    board: Rect,
    looking: &Looking<'_>,
    actions: &mut Vec<Action>,
) {
    if let Some(moving) = canvas.moving {
        canvas.moving =
            Some(moving.after(f64::from(ui.input(|i| i.stable_dt)), looking.positions.len()));
        if moving.plays {
            ui.ctx().request_repaint();
        }
    }
    canvas.divide(board);
    canvas.fit_if_wanted(looking.scene);
    let layouts = lay_out_all(ui, canvas, looking);
    let mut pointed = interact::views(ui, canvas, &layouts, looking, actions);
    canvas.hover_is_on_strip = false;
    if let Some(on) = &canvas.on_strip
        && (pointed.hover.is_none() || on.by == PointedBy::Pointer)
    {
        pointed.hover = Hover::on_strip(on, looking);
        canvas.hover_is_on_strip = true;
    }
    let focused = ui.memory(egui::Memory::focused).is_some();
    if let (false, false, Some(by)) = (focused, looking.selected.is_empty(), interact::arrows(ui)) {
        actions.push(Action::Nudge { thing: None, view: canvas.active, by });
    }
    let mut obstacle = None;
    if canvas.panes.shows(Pane::Turning) {
        let coarser = if is_in_motion(ui, canvas, looking) { 0.5 } else { 1.0 };
        let per_point = f64::from(ui.pixels_per_point()) * coarser;
        let picture = canvas.turning.draw(looking.scene, canvas.turning_area, per_point);
        obstacle = turn::show(ui, picture, looking, &mut pointed, actions);
    }
    if canvas.hover != pointed.hover {
        // Names follow what is pointed at.
        canvas.hover = pointed.hover;
        ui.ctx().request_repaint();
    }
    paint_all(ui, canvas, &layouts, looking, pointed.finding, obstacle);
    canvas.covered = overlay::corners(ui, canvas, actions);
}

/// Whether something, or a view, is being dragged: what need not move stands still meanwhile.
fn is_moved(canvas: &Canvas, looking: &Looking<'_>) -> bool {
    looking.drag.is_some() || canvas.pointer.pans()
}

/// Whether the turning view is about to change with every frame: it is drawn coarser meanwhile.
fn is_in_motion(ui: &Ui, canvas: &Canvas, looking: &Looking<'_>) -> bool {
    let area = paint::rect(canvas.turning_area);
    let is_turned = |i: &egui::InputState| {
        i.pointer.is_decidedly_dragging()
            && i.pointer.press_origin().is_some_and(|from| area.contains(from))
    };
    looking.drag.is_some() || ui.input(is_turned)
}

fn lay_out_all(ui: &Ui, canvas: &mut Canvas, looking: &Looking<'_>) -> Vec<Arc<ViewLayout>> {
    let asked = asked(canvas, looking);
    let painter = ui.painter();
    let shown = View::ALL.into_iter().filter(|view| canvas.panes.shows((*view).into()));
    let shown: Vec<View> = shown.collect();
    shown
        .into_iter()
        .map(|view| {
            let named = Named {
                asked: asked.clone(),
                run: looking.run.map(str::to_owned),
                finding: looking.finding,
                buttons: overlay::width(canvas.panes, view.into()),
                moving: is_moved(canvas, looking),
            };
            canvas.lay_out(view, looking.scene, named, &|text| measure(painter, text))
        })
        .collect()
}

/// What is to be named in every view: what is pointed at, what is selected, the ports of the selected hose. Hoses
/// and obstacles are named where the pointer is.
fn asked(canvas: &Canvas, looking: &Looking<'_>) -> Vec<layout::Named> {
    let scene = looking.scene;
    let port =
        |id: &str| scene.ports.iter().position(|port| port.id == id).map(layout::Named::Port);
    let mut asked: Vec<layout::Named> = Vec::new();
    let pointed = canvas.hover.as_ref().map(|hover| &hover.thing);
    let pointed = pointed.filter(|thing| !matches!(thing, Thing::Obstacle(_)));
    for thing in pointed.into_iter().chain(looking.selected) {
        let named = match thing {
            Thing::Port(id) => port(id),
            Thing::Obstacle(id) => {
                let place = scene.obstacles.iter().position(|mark| mark.id == *id);
                place.map(layout::Named::Obstacle)
            }
            Thing::Via { run, via } => {
                let vias = scene
                    .hoses
                    .iter()
                    .flat_map(|hose| hose.vias.iter().map(|mark| (hose.run.as_str(), mark.via)));
                vias.clone().position(|mark| mark == (run.as_str(), *via)).map(layout::Named::Via)
            }
            Thing::Hose(_) | Thing::MovingGroup(_) => None,
        };
        asked.extend(named);
    }
    let runs = looking.bay.routings.get(looking.routing).map(|o| o.runs.as_slice());
    let selected = runs.unwrap_or_default().iter().find(|run| Some(run.id.as_str()) == looking.run);
    if let Some(run) = selected {
        asked.extend([&run.from.port, &run.to.port].into_iter().filter_map(|id| port(id)));
    }
    let mut first = Vec::with_capacity(asked.len().min(MOST_NAMED));
    for of in asked {
        if first.len() < MOST_NAMED && !first.contains(&of) {
            first.push(of);
        }
    }
    first
}

/// Where more is selected than this, the rest stays without a name.
const MOST_NAMED: usize = 12;

fn paint_all(
    ui: &Ui,
    canvas: &mut Canvas,
    layouts: &[Arc<ViewLayout>],
    looking: &Looking<'_>,
    pointed: Option<(View, usize)>,
    obstacle: Option<(usize, DVec2)>,
) {
    let colours = theme::palette(ui);
    let held = looking.drag.and_then(|drag| {
        let thing = drag.thing()?;
        let point = thing.place(looking.bay, looking.routing)?;
        Some(Hover { thing, point, along_mm: None })
    });
    let lit = held.or_else(|| canvas.hover.clone());
    let emphasis = paint::Emphasis {
        run: looking.run,
        selected: looking.selected,
        sees_through: canvas.sees_through,
        thing: lit.as_ref().map(|hover| &hover.thing),
        finding: pointed.map(|(_, finding)| finding).or(looking.finding),
        installed: canvas.installed,
        positioned: canvas.moving.and_then(|moving| moving.positioned(looking.positions.len())),
    };
    let called = called_out(layouts, looking, pointed);
    let mut on_top = canvas.covered.clone();
    for layout in layouts {
        let painter = ui.painter_at(paint::rect(layout.area));
        let call_out = called.filter(|(view, _)| *view == layout.view).and_then(|(_, marker)| {
            let mark = looking.scene.finding(marker.finding)?;
            let moving = is_moved(canvas, looking);
            let (kept, taken) = (&mut canvas.kept[layout.view.index()].call_out, &canvas.covered);
            let placed = (marker, mark);
            Some(paint::CallOut::new(&painter, layout, placed, moving, taken, kept, colours))
        });
        on_top.extend(call_out.as_ref().map(|call_out| call_out.frame));
        let name = pointed_name(ui, layout, looking);
        let over = paint::Over { call_out: call_out.as_ref(), pointed: name.as_ref() };
        let kept = &mut canvas.kept[layout.view.index()].painted;
        paint::view(&painter, looking, layout, emphasis, &over, kept, colours);
        paint::selected(&painter, layout, looking, colours);
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
        paint::turning(&painter, looking.scene, picture, emphasis, obstacle, turned, colours);
        if let Some(hover) = &lit {
            paint::cross_in(&painter, picture, hover.point, colours);
        }
    }
    let pointer = ui.input(|i| i.pointer.hover_pos());
    let figures = looking.figures.as_ref().zip(pointer);
    let figures = figures.map(|(lines, at)| overlay::Figures::beside(ui, at, lines, &on_top));
    let held_in = |view: View| layouts.iter().find(|layout| layout.view == view);
    let sketched = looking.sketch.and_then(|sketch| sketch.landed.as_ref());
    let held = looking.drag.and_then(|drag| Some((drag.view, drag.snapped.as_ref()?)));
    let snapped = sketched.map(|(view, snapped)| (*view, snapped)).or(held);
    if let Some((layout, snapped)) = snapped.and_then(|(v, s)| Some((held_in(v)?, s))) {
        let painter = ui.painter_at(paint::rect(layout.area));
        // Neither under the figures nor under what a finding says nor under the buttons of the view.
        let figures = figures.as_ref().map(|figures| figures.frame);
        let taken: Vec<Rect> = figures.into_iter().chain(on_top).collect();
        paint::guides(&painter, layout, snapped, &taken, colours);
    }
    if let Some(hover) = &lit {
        paint::tie(ui.painter(), layouts, hover.point, colours);
    }
    if let Some(figures) = figures {
        figures.paint(ui);
    }
}

/// The name of what is under the pointer.
fn pointed_name(ui: &Ui, layout: &ViewLayout, looking: &Looking<'_>) -> Option<Label> {
    let at = ui.input(|i| i.pointer.hover_pos())?;
    let at = dvec2(f64::from(at.x), f64::from(at.y));
    layout::pointed(looking.scene, layout, at, &|text| measure(ui.painter(), text))
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
    let finding = looking.finding.or(looking.speaking)?;
    layouts.iter().find_map(|layout| {
        let marker = marker_in(layout, finding)?;
        layout.area.grown(-8.0).contains(marker.at).then_some((layout.view, marker))
    })
}
