//! What no cut list can beat: pieces from a size up, weighed by their length or counted, against the
//! most of them that each stock length could hold.

use super::Work;
use super::cost::Cost;
use super::problem::Steps;

/// Longer sums than this are not listed one by one; the room itself is the bound then.
const LONGEST_SUM: i64 = 1 << 23;

/// A weighing of the pieces, and the most weight that one bar of each room holds.
#[derive(Debug, Clone)]
struct Weighing {
    /// Pieces weighed: the sizes up to and with this place, thus the longest ones.
    until: usize,
    by: By,
    /// For each room.
    most: Vec<i64>,
    /// Length that at least goes with one unit of weight.
    length: i64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum By {
    Length,
    Number,
}

/// The weighings for a set of sizes and rooms.
#[derive(Debug, Clone)]
pub(super) struct Bounds {
    weighings: Vec<Weighing>,
    sizes: Vec<i64>,
}

impl Bounds {
    /// For pieces of `sizes` (longest first), `demand` of each, in bars of these rooms.
    pub(super) fn new(sizes: &[i64], demand: &[usize], rooms: &[i64]) -> Self {
        let mut weighings = Vec::new();
        let mut sums = Sums::new(sizes, demand, rooms);
        for (until, size) in sizes.iter().enumerate() {
            sums.add(*size, demand[until]);
            let lengths = rooms.iter().map(|room| sums.most_within(*room)).collect();
            weighings.push(Weighing { until, by: By::Length, most: lengths, length: 1 });
            let numbers = rooms.iter().map(|room| most_pieces(sizes, demand, until, *room));
            let numbers = numbers.collect();
            weighings.push(Weighing { until, by: By::Number, most: numbers, length: *size });
        }
        Self { weighings, sizes: sizes.to_vec() }
    }

    /// What [`Self::left_over`] takes of the work allowed.
    pub(super) fn work(&self) -> u64 {
        let rooms = self.weighings.first().map_or(0, |weighing| weighing.most.len());
        (self.weighings.len() * (rooms + 1)) as u64
    }

    /// What of these pieces (so many of each size) cannot be placed in so many bars of each room, at
    /// least; in steps.
    pub(super) fn left_over(&self, pieces: &[usize], bars: &[usize]) -> i64 {
        let mut worst = 0;
        self.each(pieces, |weighing, weight| {
            let held: i64 = weighing.most.iter().zip(bars).map(|(most, n)| most * *n as i64).sum();
            worst = worst.max((weight - held) * weighing.length);
        });
        worst
    }

    /// The least that a cut list costs once the bars of the first rooms are settled (`bars`) and those of
    /// the other rooms are free.
    pub(super) fn least(
        &self,
        steps: &Steps,
        pieces: &[usize],
        bars: &[usize],
        work: &Work,
    ) -> Cost {
        /// Long numbers are divided.
        const OF_A_ROOM: u64 = 40;
        let mut divided = 0;
        let settled = steps.stock.iter().zip(bars);
        let paid = settled.fold(Cost::default(), |sum, (bar, n)| sum + bar.cost.times(*n as i128));
        let mut best = Cost::default();
        self.each(pieces, |weighing, weight| {
            let held: i64 = weighing.most.iter().zip(bars).map(|(most, n)| most * *n as i64).sum();
            if weight > held {
                let rest = i128::from(weight - held);
                divided += weighing.most.len().saturating_sub(bars.len()) as u64 + 1;
                best = best.max(cheapest(steps, weighing, bars.len(), rest));
            }
        });
        work.take(self.work() + divided * OF_A_ROOM);
        paid + best
    }

    /// Each weighing with what the pieces weigh by it.
    fn each(&self, pieces: &[usize], mut told: impl FnMut(&Weighing, i64)) {
        let (mut length, mut number, mut next) = (0, 0, 0);
        for weighing in &self.weighings {
            while next <= weighing.until {
                length += self.sizes[next] * pieces[next] as i64;
                number += pieces[next] as i64;
                next += 1;
            }
            told(weighing, if weighing.by == By::Length { length } else { number });
        }
    }
}

/// The least cost of holding `rest` by weight in bars from the room `from` on, or outside, were bars
/// to be had in parts: one kind of them is then the best for all.
fn cheapest(steps: &Steps, weighing: &Weighing, from: usize, rest: i128) -> Cost {
    let outside = steps.outside.times(rest * i128::from(weighing.length));
    let bars = steps.stock.iter().zip(&weighing.most).skip(from).filter(|(_, most)| **most > 0);
    bars.map(|(bar, most)| bar.cost.share(rest, i128::from(*most))).fold(outside, Cost::min)
}

/// The most pieces, of the sizes up to `until`, that fit in a room: the shortest of them.
fn most_pieces(sizes: &[i64], demand: &[usize], until: usize, room: i64) -> i64 {
    let (mut left, mut number) = (room, 0);
    for (size, there) in sizes[..=until].iter().zip(&demand[..=until]).rev() {
        let taken = (*there as i64).min(left / size);
        left -= taken * size;
        number += taken;
    }
    number
}

/// All lengths that pieces can make together, as bits.
struct Sums {
    step: i64,
    bits: Option<Vec<u64>>,
    whole: i64,
}

impl Sums {
    fn new(sizes: &[i64], demand: &[usize], rooms: &[i64]) -> Self {
        let step = sizes.iter().fold(0, |a, b| gcd(a, *b)).max(1);
        let all: i64 = sizes.iter().zip(demand).map(|(size, n)| size * *n as i64).sum();
        let longest = rooms.iter().copied().max().unwrap_or(0).min(all) / step;
        let bits = (longest <= LONGEST_SUM).then(|| {
            let mut bits = vec![0; longest as usize / 64 + 1];
            bits[0] = 1;
            bits
        });
        Self { step, bits, whole: 0 }
    }

    fn add(&mut self, size: i64, count: usize) {
        self.whole += size * count as i64;
        let Some(bits) = &mut self.bits else { return };
        let by = (size / self.step) as usize;
        let (words, shift) = (by / 64, by % 64);
        for _ in 0..count {
            for to in (words..bits.len()).rev() {
                let low = bits[to - words] << shift;
                let carried =
                    if shift > 0 && to > words { bits[to - words - 1] >> (64 - shift) } else { 0 };
                bits[to] |= low | carried;
            }
        }
    }

    /// The longest sum that is no longer than the room.
    fn most_within(&self, room: i64) -> i64 {
        let Some(bits) = &self.bits else { return room.min(self.whole) };
        let longest = (room.min(self.whole) / self.step) as usize;
        let mut at = longest.min(bits.len() * 64 - 1);
        loop {
            let word = bits[at / 64] & (u64::MAX >> (63 - at % 64));
            if word != 0 {
                let found = at / 64 * 64 + 63 - word.leading_zeros() as usize;
                return found as i64 * self.step;
            }
            if at < 64 {
                return 0;
            }
            at = at / 64 * 64 - 1;
        }
    }
}

fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}
