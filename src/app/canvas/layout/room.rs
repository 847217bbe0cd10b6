//! The room that is left in a view for names.

use std::sync::{Arc, OnceLock};

use glam::{DVec2, dvec2};

use super::super::camera::Area;
use super::{Band, Named};

/// What names must not cover, what they could be read as the names of, and where the hoses are.
pub(super) struct Room {
    view: Area,
    marks: Vec<RoundMark>,
    /// Which of them stand in each square.
    marked: Vec<Vec<u32>>,
    taken: Vec<Area>,
    /// Which of them reach into each square of the view, row by row: there may be hundreds.
    squares: Vec<Vec<u32>>,
    across: usize,
    /// Cells that a hose runs through, row by row.
    hoses: Vec<bool>,
    columns: usize,
}

/// The cells that a band covers in a view, by their places; worked out when first asked for, since most bands
/// stay where they are while one is dragged.
#[derive(Debug, Clone, Default)]
pub(super) struct Covered(OnceLock<(Area, Vec<u32>)>);

/// What was worked out makes no band another one.
impl PartialEq for Covered {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

/// A round mark that a name beside it would be read as the name of.
#[derive(Debug, Clone, Copy)]
pub(super) struct RoundMark {
    pub(super) at: DVec2,
    pub(super) radius: f64,
    /// What it marks, where that has a name.
    pub(super) of: Option<Named>,
}

impl RoundMark {
    /// How far an area is from its edge; negative inside it.
    pub(super) fn gap(&self, area: Area) -> f64 {
        self.at.clamp(area.min, area.max).distance(self.at) - self.radius
    }
}

/// Side of a cell, points: about the width of a hose at the scale that shows a whole bay.
const CELL: f64 = 6.0;
/// Side of a square, points: about the length of a name.
const SQUARE: f64 = 64.0;

impl Room {
    pub(super) fn new(view: Area, taken: Vec<Area>, marks: Vec<RoundMark>) -> Self {
        let cells = (view.size().max(DVec2::ZERO) / CELL).ceil();
        let (columns, rows) = (cells.x as usize, cells.y as usize);
        let across = (view.size().x.max(0.0) / SQUARE) as usize + 1;
        let down = (view.size().y.max(0.0) / SQUARE) as usize + 1;
        let mut room = Self {
            view,
            marks: Vec::new(),
            marked: vec![Vec::new(); across * down],
            taken: Vec::new(),
            squares: vec![Vec::new(); across * down],
            across,
            hoses: vec![false; columns * rows],
            columns,
        };
        for area in taken {
            room.occupy(area);
        }
        for mark in marks {
            let about = Area { min: mark.at, max: mark.at }.grown(mark.radius);
            if view.meets(about) {
                room.occupy(about.grown(1.0));
                for square in room.squares_of(about) {
                    room.marked[square].push(room.marks.len() as u32);
                }
                room.marks.push(mark);
            }
        }
        room
    }

    /// The mark of what has this name.
    pub(super) fn mark_of(&self, of: Named) -> Option<RoundMark> {
        self.marks.iter().find(|mark| mark.of == Some(of)).copied()
    }

    /// Whether a mark of something else is nearer to an area than this.
    pub(super) fn has_other_within(&self, area: Area, of: Named, reach: f64) -> bool {
        let is_near = |place: &u32| {
            let mark = self.marks[*place as usize];
            mark.of != Some(of) && mark.gap(area) < reach
        };
        self.squares_of(area.grown(reach.max(0.0))).any(|k| self.marked[k].iter().any(is_near))
    }

    /// Whether a line runs over a mark of something else.
    pub(super) fn is_crossed(&self, [a, b]: [DVec2; 2], of: Named) -> bool {
        let is_on = |place: &u32| {
            let mark = self.marks[*place as usize];
            let share = (mark.at - a).dot(b - a) / (b - a).length_squared().max(1e-9);
            mark.of != Some(of)
                && a.lerp(b, share.clamp(0.0, 1.0)).distance(mark.at) < mark.radius + 1.0
        };
        let about = Area { min: a.min(b), max: a.max(b) };
        self.squares_of(about).any(|k| self.marked[k].iter().any(is_on))
    }

    /// Marks the cells that the hoses of a region run through.
    pub(super) fn mark_hoses(&mut self, bands: &[Arc<Band>], region: Area) {
        for band in bands {
            if band.about.meets(region.grown(band.half)) {
                let (view, cells) = band.cells.0.get_or_init(|| (self.view, self.cells_of(band)));
                if *view == self.view {
                    self.mark(cells);
                } else {
                    self.mark(&self.cells_of(band));
                }
            }
        }
    }

    fn mark(&mut self, cells: &[u32]) {
        for cell in cells {
            if let Some(cell) = self.hoses.get_mut(*cell as usize) {
                *cell = true;
            }
        }
    }

    /// The cells of the view that a band runs through, in order.
    fn cells_of(&self, band: &Band) -> Vec<u32> {
        let mut cells = Vec::new();
        let region = self.view.grown(band.half);
        for ends in band.points.windows(2) {
            self.walk([ends[0], ends[1]], band.half, region, &mut cells);
        }
        cells.sort_unstable();
        cells.dedup();
        cells
    }

    fn walk(&self, ends: [DVec2; 2], half: f64, region: Area, cells: &mut Vec<u32>) {
        let Some([from, to]) = within(region, ends) else { return };
        let along = to - from;
        let steps = (along.length() / CELL).ceil().max(1.0) as u32;
        let lanes = (half / CELL).ceil().min(40.0) as i32;
        let aside = along.perp().normalize_or_zero() * half / f64::from(lanes.max(1));
        for step in 0..=steps {
            let middle = from + along * (f64::from(step) / f64::from(steps));
            for lane in -lanes..=lanes {
                let at = middle + aside * f64::from(lane);
                if self.view.contains(at) {
                    // Inside the view, so that casting rounds down.
                    let cell = (at - self.view.min) / CELL;
                    cells.push((cell.y as usize * self.columns + cell.x as usize) as u32);
                }
            }
        }
    }

    /// Whether nothing that must stay readable is there, and it is inside the view.
    pub(super) fn is_free(&self, area: Area) -> bool {
        self.is_free_but_for(area, None)
    }

    /// The same for a name that stands at `own` already.
    pub(super) fn is_free_but_for(&self, area: Area, own: Option<Area>) -> bool {
        let own = own.map(with_gap);
        let is_taken = |place: &u32| {
            let taken = self.taken[*place as usize];
            taken.meets(area) && own != Some(taken)
        };
        let mut squares = self.squares_of(area);
        self.is_inside(area) && !squares.any(|square| self.squares[square].iter().any(is_taken))
    }

    /// The squares that an area reaches into.
    fn squares_of(&self, area: Area) -> impl Iterator<Item = usize> + use<> {
        let (across, last) = (self.across, self.squares.len() / self.across - 1);
        // A cast rounds down what is not negative, and keeps the rest at nothing.
        let from = (area.min - self.view.min) / SQUARE;
        let to = (area.max - self.view.min) / SQUARE;
        let columns = (from.x as usize).min(across - 1)..=(to.x as usize).min(across - 1);
        let rows = (from.y as usize).min(last)..=(to.y as usize).min(last);
        rows.flat_map(move |row| columns.clone().map(move |column| row * across + column))
    }

    fn occupy(&mut self, area: Area) {
        if !self.view.meets(area) {
            return;
        }
        let place = self.taken.len() as u32;
        for square in self.squares_of(area) {
            self.squares[square].push(place);
        }
        self.taken.push(area);
    }

    pub(super) fn is_inside(&self, area: Area) -> bool {
        self.view.contains(area.min) && self.view.contains(area.max)
    }

    /// Share of an area inside the view that hoses run through.
    pub(super) fn hose_share(&self, area: Area) -> f64 {
        let from = ((area.min - self.view.min) / CELL).floor().max(DVec2::ZERO);
        let to = ((area.max - self.view.min) / CELL).floor().max(DVec2::ZERO);
        let (mut count, mut all) = (0_u32, 0_u32);
        for y in from.y as usize..=to.y as usize {
            for x in from.x as usize..=(to.x as usize).min(self.columns.saturating_sub(1)) {
                all += 1;
                count += u32::from(self.hoses.get(y * self.columns + x) == Some(&true));
            }
        }
        f64::from(count) / f64::from(all.max(1))
    }

    /// Takes the place of a name; the next one keeps a little off it.
    pub(super) fn take(&mut self, area: Area) {
        self.occupy(with_gap(area));
    }
}

/// The place of a name with what the next one keeps off it.
fn with_gap(area: Area) -> Area {
    let gap = dvec2(4.0, 1.0);
    Area { min: area.min - gap, max: area.max + gap }
}

/// The part of a line that is inside an area.
pub(super) fn within(area: Area, [a, b]: [DVec2; 2]) -> Option<[DVec2; 2]> {
    let (along, mut from, mut to) = (b - a, 0.0_f64, 1.0_f64);
    for axis in 0..2 {
        let (lo, hi) = (area.min[axis] - a[axis], area.max[axis] - a[axis]);
        if along[axis] == 0.0 {
            if lo > 0.0 || hi < 0.0 {
                return None;
            }
            continue;
        }
        let (s, t) = (lo / along[axis], hi / along[axis]);
        from = from.max(s.min(t));
        to = to.min(s.max(t));
    }
    (from <= to).then(|| [a + from * along, a + to * along])
}

#[cfg(test)]
mod tests {
    use super::super::BandKind;
    use super::*;

    fn view() -> Area {
        Area { min: dvec2(10.0, 20.0), max: dvec2(310.0, 220.0) }
    }

    fn band(from: DVec2, to: DVec2) -> Arc<Band> {
        Arc::new(Band {
            hose: 0,
            place: 0,
            kind: BandKind::Hose,
            points: vec![from, to],
            along_mm: vec![0.0, 1.0],
            half: 3.0,
            depth: 0.0,
            before: 0.0,
            round_start: false,
            about: Area { min: from.min(to), max: from.max(to) },
            cells: Covered::default(),
        })
    }

    #[test]
    fn a_hose_takes_the_cells_it_runs_through_and_no_others() {
        // Far outside at both ends, as when the view is close up.
        let bands = [band(dvec2(-5000.0, 120.0), dvec2(90_000.0, 120.0))];
        let mut room = Room::new(view(), vec![], vec![]);
        room.mark_hoses(&bands, view());
        let across = Area { min: dvec2(50.0, 116.0), max: dvec2(120.0, 124.0) };
        let above = Area { min: dvec2(50.0, 60.0), max: dvec2(120.0, 75.0) };
        assert!(room.hose_share(across) > 0.5);
        assert!(room.hose_share(above) < 1e-9);
    }

    #[test]
    fn a_place_is_free_until_it_is_taken() {
        let mut room = Room::new(view(), vec![], vec![]);
        let area = Area { min: dvec2(50.0, 60.0), max: dvec2(120.0, 75.0) };
        assert!(room.is_free(area));
        room.take(area);
        assert!(!room.is_free(area));
        let off_the_view = Area { min: dvec2(0.0, 60.0), max: dvec2(70.0, 75.0) };
        assert!(!Room::new(view(), vec![], vec![]).is_free(off_the_view));
    }

    #[test]
    fn a_line_is_cut_to_the_view() {
        let [a, b] = within(view(), [dvec2(0.0, 120.0), dvec2(1000.0, 120.0)]).unwrap();
        assert!((a.x - 10.0).abs() < 1e-9 && (b.x - 310.0).abs() < 1e-9);
        assert_eq!(within(view(), [dvec2(0.0, 0.0), dvec2(1000.0, 0.0)]), None);
    }
}
