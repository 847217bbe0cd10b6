//! Which views are shown, and how they share the board: in their drafting places (ISO 128, third
//! angle), the turning view in the free quarter. A view whose neighbour is away takes its room.

use glam::{DVec2, dvec2};

use super::camera::{Area, View};

/// A place on the board.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Pane {
    /// From above.
    Plan,
    /// From the vehicle's right.
    Side,
    /// From ahead.
    Front,
    /// From wherever it is turned to.
    Turning,
}

impl Pane {
    /// All, in the order of their keys.
    pub const ALL: [Self; 4] = [Self::Plan, Self::Side, Self::Front, Self::Turning];

    /// Its name.
    pub fn name(self) -> &'static str {
        match self {
            Self::Plan => "Plan",
            Self::Side => "Side",
            Self::Front => "Front",
            Self::Turning => "3-D",
        }
    }

    fn index(self) -> usize {
        self as usize
    }

    /// Row and column of its quarter.
    fn quarter(self) -> (usize, usize) {
        match self {
            Self::Plan => (0, 0),
            Self::Turning => (0, 1),
            Self::Side => (1, 0),
            Self::Front => (1, 1),
        }
    }
}

impl From<View> for Pane {
    fn from(view: View) -> Self {
        match view {
            View::Plan => Self::Plan,
            View::Side => Self::Side,
            View::Front => Self::Front,
        }
    }
}

/// Which views are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Panes {
    shown: [bool; 4],
    large: Option<Pane>,
}

impl Default for Panes {
    fn default() -> Self {
        Self { shown: [true; 4], large: None }
    }
}

/// Space between the views.
const GAP: f64 = 8.0;

impl Panes {
    /// The views of these names; all where none of them is known.
    pub fn named(names: &[String]) -> Self {
        let shown = Pane::ALL.map(|pane| names.iter().any(|name| name == pane.name()));
        if shown.contains(&true) { Self { shown, large: None } } else { Self::default() }
    }

    /// The names of the views on the board, also while one of them is large; none for all.
    pub fn names(&self) -> Option<Vec<String>> {
        let shown = Pane::ALL.into_iter().filter(|pane| self.shown[pane.index()]);
        let names: Vec<String> = shown.map(|pane| pane.name().to_owned()).collect();
        (names.len() < Pane::ALL.len()).then_some(names)
    }

    /// Whether a view is to be seen.
    pub fn shows(&self, pane: Pane) -> bool {
        self.large.map_or(self.shown[pane.index()], |large| large == pane)
    }

    /// The one view that has the whole board for now.
    pub fn large(&self) -> Option<Pane> {
        self.large
    }

    /// The first that is to be seen.
    pub fn first(&self) -> Pane {
        Pane::ALL.into_iter().find(|pane| self.shows(*pane)).unwrap_or(Pane::Plan)
    }

    /// How many are to be seen.
    pub fn count(&self) -> usize {
        Pane::ALL.into_iter().filter(|pane| self.shows(*pane)).count()
    }

    /// Gives one view the whole board, or puts the others back.
    pub fn enlarge(&mut self, pane: Pane) {
        self.large = (self.large != Some(pane)).then_some(pane);
    }

    /// Shows all four.
    pub fn show_all(&mut self) {
        *self = Self::default();
    }

    /// Shows a view among the others or takes it away; the last one stays.
    pub fn toggle(&mut self, pane: Pane) {
        if let Some(large) = self.large.take() {
            self.shown = [false; 4];
            self.shown[large.index()] = true;
        }
        self.shown[pane.index()] ^= true;
        if !self.shown.contains(&true) {
            self.shown[pane.index()] = true;
        }
    }

    /// Where each view stands, in the order of [`Pane::ALL`]; `split` is the share of the left
    /// column and of the upper row where there are two.
    pub fn divide(&self, board: Area, split: DVec2) -> [Option<Area>; 4] {
        let mut cells: Vec<(Pane, (usize, usize))> = Pane::ALL
            .into_iter()
            .filter(|pane| self.shows(*pane))
            .map(|pane| (pane, pane.quarter()))
            .collect();
        // Two views that share no axis across stand side by side: screens are wide.
        if let [(a, _), (b, _)] = cells[..]
            && (a, b) != (Pane::Plan, Pane::Side)
        {
            cells = vec![(a, (0, 0)), (b, (0, 1))];
        }
        let has = |row: usize, column: usize| cells.iter().any(|(_, at)| *at == (row, column));
        let [top, foot] = [0, 1].map(|row| has(row, 0) || has(row, 1));
        let cut = (board.min + (board.size() - GAP) * split).round();
        Pane::ALL.map(|pane| {
            let (_, (row, column)) = cells.iter().find(|(of, _)| *of == pane)?;
            let neighbour = has(*row, 1 - column);
            let (left, right) = span(board.min.x, cut.x, board.max.x, *column, neighbour);
            let (upper, lower) = span(board.min.y, cut.y, board.max.y, *row, top && foot);
            Some(Area { min: dvec2(left, upper), max: dvec2(right, lower) })
        })
    }
}

/// From where to where a cell goes: before or after the cut, or all along.
fn span(from: f64, cut: f64, to: f64, place: usize, is_cut: bool) -> (f64, f64) {
    match (is_cut, place) {
        (false, _) => (from, to),
        (true, 0) => (from, cut),
        (true, _) => (cut + GAP, to),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOARD: Area = Area { min: DVec2::new(10.0, 50.0), max: DVec2::new(1010.0, 650.0) };
    const SPLIT: DVec2 = DVec2::new(0.6, 0.5);

    fn only(panes: &[Pane]) -> Panes {
        let mut found = Panes::default();
        for pane in Pane::ALL {
            if !panes.contains(&pane) {
                found.toggle(pane);
            }
        }
        found
    }

    /// Every choice of views that leaves one.
    fn choices() -> impl Iterator<Item = Vec<Pane>> {
        (1..16_usize).map(|bits| {
            Pane::ALL.into_iter().filter(|pane| bits >> pane.index() & 1 == 1).collect()
        })
    }

    #[test]
    fn every_choice_fills_the_board_without_overlap() {
        for panes in choices() {
            let areas: Vec<Area> =
                only(&panes).divide(BOARD, SPLIT).into_iter().flatten().collect();
            assert_eq!(areas.len(), panes.len());
            for (i, a) in areas.iter().enumerate() {
                assert!(areas[i + 1..].iter().all(|b| !a.meets(*b)), "{panes:?}");
                assert!(a.size().min_element() > 100.0, "{panes:?}");
            }
            let covered: f64 = areas.iter().map(|a| a.size().element_product()).sum();
            let board = BOARD.size().element_product();
            assert!(covered / board > 0.97, "{panes:?} {covered}");
        }
    }

    #[test]
    fn views_that_share_an_axis_stand_in_line() {
        for panes in choices() {
            let [plan, side, front, _] = only(&panes).divide(BOARD, SPLIT);
            if let (Some(plan), Some(side)) = (plan, side) {
                assert_eq!(plan.min.x, side.min.x, "{panes:?}");
            }
            if let (Some(side), Some(front)) = (side, front) {
                assert_eq!((side.min.y, side.max.y), (front.min.y, front.max.y), "{panes:?}");
            }
        }
    }

    #[test]
    fn a_large_view_goes_back_to_what_was_shown() {
        let mut panes = only(&[Pane::Plan, Pane::Side]);
        let before = panes;
        panes.enlarge(Pane::Turning);
        assert_eq!(panes.count(), 1);
        assert!(panes.shows(Pane::Turning));
        panes.enlarge(Pane::Turning);
        assert_eq!(panes, before);
    }

    #[test]
    fn the_last_view_stays() {
        let mut panes = only(&[Pane::Front]);
        panes.toggle(Pane::Front);
        assert!(panes.shows(Pane::Front));
        panes.enlarge(Pane::Side);
        panes.toggle(Pane::Plan);
        assert!(panes.shows(Pane::Side) && panes.shows(Pane::Plan) && panes.count() == 2);
    }
}
