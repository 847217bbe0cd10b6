//! A small linear program: least cost of columns that cover the rows. The basis is found in floating
//! point; its duals are then made whole numbers and corrected in whole numbers, so that what is said by
//! them is exact whatever the basis was.

use super::Worth;

/// Fractional bits of a dual.
pub(super) const BITS: u32 = 16;
/// A column that would save less than this (a 128th of a step of cost) is let be.
pub(super) const LEAST_GAIN: Worth = 1 << (BITS - 7);
/// Smaller pivots are not trusted.
const LEAST_PIVOT: f64 = 1e-7;
/// Columns looked at together.
const CHUNK: usize = 100;
/// The inverse is calculated again after so many pivots.
const PIVOTS_TO_RENEW: usize = 60;

/// What a row asks of the columns in it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Asks {
    AtLeast(i64),
    AtMost(i64),
}

impl Asks {
    /// The dual made one that a row of this kind may have.
    pub(super) fn allowed(self, dual: Worth) -> Worth {
        match self {
            Self::AtLeast(_) => dual.max(0),
            Self::AtMost(_) => dual.min(0),
        }
    }

    pub(super) fn much(self) -> i64 {
        match self {
            Self::AtLeast(n) | Self::AtMost(n) => n,
        }
    }
}

/// One column; `T` says what it is.
#[derive(Debug, Clone)]
pub(super) struct Column<T> {
    pub(super) cost: Worth,
    /// Rows and how much it does for each.
    pub(super) entries: Vec<(u32, i32)>,
    pub(super) what: T,
    rough_cost: f64,
}

impl<T> Column<T> {
    pub(super) fn new(cost: Worth, entries: Vec<(u32, i32)>, what: T) -> Self {
        Self { cost, entries, what, rough_cost: (cost << BITS) as f64 }
    }
}

/// The program and its basis.
#[derive(Debug, Clone)]
pub(super) struct Program<T> {
    pub(super) rows: Vec<Asks>,
    pub(super) columns: Vec<Column<T>>,
    /// For each row, the column in the basis.
    basis: Vec<usize>,
    /// Row by row.
    inverse: Vec<f64>,
    values: Vec<f64>,
    since_renewed: usize,
    /// Columns looked at, all in all.
    pub(super) steps: u64,
    /// Work taken.
    pub(super) work: u64,
    /// The column to look at next.
    next: usize,
}

impl<T: Clone> Program<T> {
    /// With a first column for each row, which does 1 for it alone and is the basis.
    pub(super) fn new(rows: Vec<Asks>, first: Vec<Column<T>>) -> Self {
        let m = rows.len();
        let mut inverse = vec![0.0; m * m];
        (0..m).for_each(|row| inverse[row * m + row] = 1.0);
        let mut program = Self {
            rows,
            columns: first,
            basis: (0..m).collect(),
            inverse,
            values: Vec::new(),
            since_renewed: 0,
            steps: 0,
            work: 0,
            next: 0,
        };
        program.revalue();
        program
    }

    /// What the row asks, moved by next to nothing so that no two columns tie (the duals do not know).
    fn right(&self, row: usize) -> f64 {
        let moved = 1e-9 * (1.0 + (row * 7919 % 101) as f64 / 101.0);
        self.rows[row].much() as f64 + moved
    }

    fn revalue(&mut self) {
        let m = self.rows.len();
        let right: Vec<f64> = (0..m).map(|row| self.right(row)).collect();
        self.values = (0..m).map(|at| dot(&self.inverse[at * m..(at + 1) * m], &right)).collect();
    }

    /// Adds a row in which the columns for which `has` does not say 0 take part, with a slack, and a
    /// column of its own that fixes it at `dear` each where the basis does not do it.
    pub(super) fn add_row(
        &mut self,
        asks: Asks,
        (slack, artificial): (T, T),
        dear: Worth,
        has: impl Fn(&Column<T>) -> i32,
    ) {
        let m = self.rows.len();
        for column in &mut self.columns {
            let much = has(column);
            if much != 0 {
                column.entries.push((m as u32, much));
            }
        }
        self.rows.push(asks);
        let sign = if matches!(asks, Asks::AtLeast(_)) { -1 } else { 1 };
        let slack = Column::new(0, vec![(m as u32, sign)], slack);
        let artificial = Column::new(dear, vec![(m as u32, -sign)], artificial);
        let of_basis: Vec<f64> = self
            .basis
            .iter()
            .map(|column| {
                self.columns[*column]
                    .entries
                    .last()
                    .filter(|(row, _)| *row as usize == m)
                    .map_or(0.0, |(_, much)| f64::from(*much))
            })
            .collect();
        let done = dot(&of_basis, &self.values);
        let missing = self.right(m) - done;
        // The column that takes up what is missing, or what is too much.
        let slack_will_do = missing * f64::from(sign) >= 0.0;
        let pivot = f64::from(if slack_will_do { sign } else { -sign });
        let mut inverse = vec![0.0; (m + 1) * (m + 1)];
        for at in 0..m {
            inverse[at * (m + 1)..at * (m + 1) + m]
                .copy_from_slice(&self.inverse[at * m..(at + 1) * m]);
        }
        for (row, into) in inverse[m * (m + 1)..].iter_mut().enumerate().take(m) {
            let sum: f64 = (0..m).map(|at| of_basis[at] * self.inverse[at * m + row]).sum();
            *into = -sum / pivot;
        }
        inverse[m * (m + 1) + m] = 1.0 / pivot;
        self.inverse = inverse;
        self.basis.push(self.columns.len() + usize::from(!slack_will_do));
        self.columns.extend([slack, artificial]);
        self.values.push(missing / pivot);
    }

    /// Takes out columns that are not in the basis.
    pub(super) fn retain(&mut self, keeps: impl Fn(usize, &Column<T>) -> bool) {
        let mut moved = vec![usize::MAX; self.columns.len()];
        let mut kept = Vec::with_capacity(self.columns.len());
        let mut is_basic = vec![false; self.columns.len()];
        self.basis.iter().for_each(|column| is_basic[*column] = true);
        for (at, column) in self.columns.drain(..).enumerate() {
            if is_basic[at] || keeps(at, &column) {
                moved[at] = kept.len();
                kept.push(column);
            }
        }
        self.columns = kept;
        self.basis.iter_mut().for_each(|column| *column = moved[*column]);
    }

    /// Goes on to the best of the columns there are, with at most so many pivots; the duals of it.
    pub(super) fn optimise(&mut self, pivots: usize) -> Vec<Worth> {
        let mut rough = as_rough(&self.duals());
        let mut since_exact = 0;
        for _ in 0..pivots {
            let entering = self.entering_roughly(&rough).or_else(|| {
                let duals = self.duals();
                (rough, since_exact) = (as_rough(&duals), 0);
                self.entering(&duals)
            });
            let Some(entering) = entering else { break };
            let gain = self.roughly(entering, &rough);
            let Some(leaving) = self.pivot(entering) else { break };
            let m = self.rows.len();
            let line = &self.inverse[leaving * m..(leaving + 1) * m];
            rough.iter_mut().zip(line).for_each(|(dual, much)| *dual += gain * much);
            since_exact += 1;
            if since_exact >= PIVOTS_TO_RENEW {
                (rough, since_exact) = (as_rough(&self.duals()), 0);
            }
        }
        self.duals()
    }

    fn roughly(&self, column: usize, duals: &[f64]) -> f64 {
        let column = &self.columns[column];
        let worth: f64 =
            column.entries.iter().map(|(row, much)| duals[*row as usize] * f64::from(*much)).sum();
        column.rough_cost - worth
    }

    /// The best of the next columns in turn among which there is one.
    fn entering_roughly(&mut self, duals: &[f64]) -> Option<usize> {
        let count = self.columns.len();
        let mut best = (-(LEAST_GAIN as f64) * 4.0, None);
        let mut looked_at = 0;
        while looked_at < count && best.1.is_none() {
            for _ in 0..CHUNK.min(count - looked_at) {
                let at = self.next % count;
                self.next = at + 1;
                let reduced = self.roughly(at, duals);
                if reduced < best.0 {
                    best = (reduced, Some(at));
                }
                looked_at += 1;
            }
        }
        self.steps += looked_at as u64;
        self.work += looked_at as u64 * 5;
        best.1
    }

    fn entering(&mut self, duals: &[Worth]) -> Option<usize> {
        self.steps += self.columns.len() as u64;
        self.work += self.columns.len() as u64 * 16;
        let gains = self.columns.iter().map(|column| -reduced(column, duals));
        let best = gains.enumerate().fold((LEAST_GAIN, None), |best, (at, gain)| {
            if gain > best.0 { (gain, Some(at)) } else { best }
        });
        best.1
    }

    /// Duals in fixed point, corrected until the basis' own columns are met.
    pub(super) fn duals(&self) -> Vec<Worth> {
        let m = self.rows.len();
        let mut duals: Vec<Worth> = vec![0; m];
        for _ in 0..4 {
            let missing: Vec<Worth> =
                self.basis.iter().map(|column| reduced(&self.columns[*column], &duals)).collect();
            if missing.iter().all(|worth| worth.abs() < 1 << (BITS - 10)) {
                break;
            }
            let mut sums = vec![0.0; m];
            for (at, worth) in missing.iter().enumerate().filter(|(_, worth)| **worth != 0) {
                let worth = *worth as f64;
                let line = &self.inverse[at * m..(at + 1) * m];
                sums.iter_mut().zip(line).for_each(|(sum, much)| *sum += worth * much);
            }
            duals.iter_mut().zip(sums).for_each(|(dual, sum)| *dual += sum.round() as Worth);
        }
        duals
    }

    fn pivot(&mut self, entering: usize) -> Option<usize> {
        let m = self.rows.len();
        let way: Vec<f64> = (0..m)
            .map(|at| {
                self.columns[entering]
                    .entries
                    .iter()
                    .map(|(row, much)| self.inverse[at * m + *row as usize] * f64::from(*much))
                    .sum()
            })
            .collect();
        let mut leaving = None;
        let mut least = f64::INFINITY;
        for (at, by) in way.iter().enumerate().filter(|(_, by)| **by > LEAST_PIVOT) {
            let ratio = self.values[at].max(0.0) / by;
            if ratio < least {
                (least, leaving) = (ratio, Some(at));
            }
        }
        let leaving = leaving?;
        let by = way[leaving];
        self.steps += (m * m) as u64 / 8;
        self.work += work_of(m, m) + 16 * m as u64;
        for row in 0..m {
            self.inverse[leaving * m + row] /= by;
        }
        self.values[leaving] = least;
        let (head, rest) = self.inverse.split_at_mut(leaving * m);
        let (pivot, tail) = rest.split_at_mut(m);
        for (at, line) in head
            .chunks_mut(m)
            .enumerate()
            .chain(tail.chunks_mut(m).enumerate().map(|(at, line)| (at + leaving + 1, line)))
        {
            let much = way[at];
            if much != 0.0 {
                line.iter_mut().zip(&*pivot).for_each(|(into, from)| *into -= much * from);
                self.values[at] -= much * least;
            }
        }
        self.basis[leaving] = entering;
        self.since_renewed += 1;
        if self.since_renewed >= PIVOTS_TO_RENEW {
            self.renew();
        }
        Some(leaving)
    }

    /// The inverse from the columns themselves, by Gauss and Jordan with the largest pivot.
    fn renew(&mut self) {
        self.since_renewed = 0;
        let m = self.rows.len();
        let width = 2 * m;
        self.work += work_of(m, m * width);
        let mut table = vec![0.0; m * width];
        for (at, column) in self.basis.iter().enumerate() {
            for (row, much) in &self.columns[*column].entries {
                table[*row as usize * width + at] = f64::from(*much);
            }
            table[at * width + m + at] = 1.0;
        }
        for at in 0..m {
            let largest = (at..m)
                .max_by(|a, b| table[a * width + at].abs().total_cmp(&table[b * width + at].abs()));
            let Some(largest) = largest.filter(|row| table[row * width + at].abs() > LEAST_PIVOT)
            else {
                return;
            };
            if largest != at {
                (0..width).for_each(|i| table.swap(at * width + i, largest * width + i));
            }
            let by = table[at * width + at];
            (0..width).for_each(|i| table[at * width + i] /= by);
            let line: Vec<f64> = table[at * width..(at + 1) * width].to_vec();
            for row in (0..m).filter(|row| *row != at) {
                let much = table[row * width + at];
                if much != 0.0 {
                    table[row * width..(row + 1) * width]
                        .iter_mut()
                        .zip(&line)
                        .for_each(|(into, from)| *into -= much * from);
                }
            }
        }
        for at in 0..m {
            self.inverse[at * m..(at + 1) * m]
                .copy_from_slice(&table[at * width + m..(at + 1) * width]);
        }
        self.revalue();
    }

    /// How much of each column the basis takes.
    pub(super) fn taken(&self) -> Vec<(usize, f64)> {
        self.basis.iter().copied().zip(self.values.iter().copied()).collect()
    }
}

/// What a column costs beyond what the duals say its rows are worth, in fixed point.
pub(super) fn reduced<T>(column: &Column<T>, duals: &[Worth]) -> Worth {
    let worth: Worth =
        column.entries.iter().map(|(row, much)| duals[*row as usize] * Worth::from(*much)).sum();
    (column.cost << BITS) - worth
}

/// Work of going over so many numbers for each of `m` rows: what no longer fits beside the processor
/// takes longer.
fn work_of(m: usize, numbers: usize) -> u64 {
    (m * numbers * (1 + m / 64) / 4) as u64
}

fn as_rough(duals: &[Worth]) -> Vec<f64> {
    duals.iter().map(|dual| *dual as f64).collect()
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}
