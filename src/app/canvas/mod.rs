//! The drawing: three views of the bay and one that turns. [`scene`] is what there is, [`layout`]
//! where it is on the screen and what is under the pointer, `paint` how it looks; [`mod@pointer`] tells
//! what is done there.

pub mod camera;
pub mod gesture;
mod interact;
pub mod layout;
pub(in crate::app) mod looking;
mod menu;
pub mod moving;
mod obstacle_mark;
pub mod outline;
mod overlay;
mod paint;
pub mod panes;
pub mod pointer;
pub mod scene;
mod show;
pub mod snap;
pub mod thing;
pub mod turn;

use std::sync::Arc;

use eframe::egui::Rect;
use glam::{DVec2, DVec3, dvec2};

pub(super) use self::interact::listen;
pub(super) use self::layout::Open;
pub(super) use self::looking::{Hover, Looking, OnStrip, PointedBy, Under};
pub(super) use self::show::show;

use self::camera::{Area, Cameras, View};
use self::gesture::Hit;
use self::layout::{Naming, ViewLayout};
use self::moving::Moving;
use self::panes::Panes;
use self::pointer::Pointer;
use self::scene::Scene;
use self::thing::Thing;
use self::turn::Turning;
use self::turn::deed::Deed;

/// How the drawing is looked at. No part of the document.
#[derive(Debug, Clone)]
#[allow(clippy::struct_excessive_bools, reason = "each is a switch of its own")]
pub struct Canvas {
    /// The cameras of the views.
    pub cameras: Cameras,
    /// Where the views were last; without size where they are not shown.
    pub areas: [Area; 3],
    /// Which views are shown.
    pub panes: Panes,
    /// The turning view.
    pub turning: Turning,
    /// The routing to be seen behind the one in view.
    pub ghost: Option<usize>,
    /// Whether it is shown the installed shapes.
    pub installed: bool,
    /// Whether what is in front of what is selected is seen through.
    pub sees_through: bool,
    /// The motion that is shown.
    pub moving: Option<Moving>,
    /// Share of the width and of the height that the plan view takes.
    split: DVec2,
    /// Whether the whole bay is to be shown: until the user looks elsewhere, also when the window
    /// changes its size.
    fitted: bool,
    fitted_in: [Area; 4],
    turning_area: Area,
    /// What is under the pointer.
    hover: Option<Hover>,
    kept: [ViewCache; 3],
    turned: paint::Turned,
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
            installed: true,
            sees_through: false,
            moving: None,
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
            on_strip: None,
            hover_is_on_strip: false,
        }
    }
}

/// What is kept of a view from frame to frame.
#[derive(Debug, Clone, Default)]
struct ViewCache {
    scene: Option<Arc<()>>,
    layout: Option<Arc<ViewLayout>>,
    named: Option<Named>,
    painted: paint::PaintCache,
    call_out: paint::BoxPlace,
}

/// What the names of a view depend on besides what is in it.
#[derive(Debug, Clone, PartialEq)]
struct Named {
    asked: Vec<layout::Named>,
    run: Option<String>,
    finding: Option<usize>,
    buttons: f64,
    /// Whether something is being moved: what is not stays named as it is.
    moving: bool,
}

/// Where a bay is looked for that has nothing in it.
const EMPTY: (DVec3, DVec3) = (DVec3::splat(-300.0), DVec3::splat(300.0));

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

    /// The views as they were laid out last.
    fn shown_last(&self) -> Vec<Arc<ViewLayout>> {
        let shown = View::ALL.into_iter().filter(|view| self.panes.shows((*view).into()));
        shown.filter_map(|view| self.kept[view.index()].layout.clone()).collect()
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

    /// The things that are wholly between two places of a view.
    pub(super) fn things_between(
        &self,
        scene: &Scene,
        view: View,
        from: DVec2,
        to: DVec2,
        run: Option<&str>,
    ) -> Vec<Thing> {
        let (area, camera) = (self.areas[view.index()], self.cameras.of(view));
        let [a, b] = [from, to].map(|place| camera.to_screen(area, place));
        let layout = layout::place(scene, view, area, camera, None);
        let open = Open { run, finding: None };
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

    /// A view laid out: what is as it was is not calculated again.
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
        let fits = |old: &Arc<ViewLayout>| same && old.area == area && old.camera == camera;
        let before = kept.layout.clone();
        if !kept.layout.as_ref().is_some_and(fits) {
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
                asked: &named.asked,
                run: named.run.as_deref(),
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
