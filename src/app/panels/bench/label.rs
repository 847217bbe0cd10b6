//! Finds a place for every text below the hose, or for as many as fit. Pure and in f64.

/// A text that wants to stand below its place on the hose.
#[derive(Debug, Clone)]
pub(super) struct LabelRequest {
    /// What it is about.
    pub(super) kind: LabelKind,
    /// The same in ever fewer words.
    pub(super) texts: Vec<String>,
    /// The place on the hose.
    pub(super) anchor: f64,
    /// It must not be wider than this: a stretch of hose is named where it lies, or not at all.
    pub(super) most: f64,
}

/// A text with its place. Its leader drops from the hose at `anchor`.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct StripLabel {
    pub(super) kind: LabelKind,
    pub(super) text: String,
    pub(super) anchor: f64,
    /// Left and right of the text.
    pub(super) span: (f64, f64),
    /// From 0, right below the hose, downwards.
    pub(super) row: usize,
}

/// What a text is about; the order is its rank where there is no room for all.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum LabelKind {
    /// A cut end: always named.
    Cut,
    /// A bend that is too tight.
    Tight,
    /// A clamp.
    Clamp,
    /// Another bend.
    Bend,
    /// The length of a straight stretch or of a socket.
    Stretch,
}

/// Between two texts, points.
const GAP: f64 = 7.0;
/// Between a text and a leader that passes it, points.
const AIR: f64 = 4.0;
/// A leader meets its text at least this far from the text's ends.
const INSIDE: f64 = 5.0;

/// Places the requests by rank; `bounds` is how far left and right a text may reach.
pub(super) fn place(
    mut requests: Vec<LabelRequest>,
    bounds: (f64, f64),
    rows: usize,
    measure: &dyn Fn(&str) -> f64,
) -> Vec<StripLabel> {
    requests.sort_by(|a, b| a.kind.cmp(&b.kind).then(a.anchor.total_cmp(&b.anchor)));
    let mut placed = Vec::with_capacity(requests.len());
    for request in requests {
        if let Some(label) = first_free(&request, bounds, rows, &placed, measure) {
            placed.push(label);
        }
    }
    placed
}

fn first_free(
    request: &LabelRequest,
    bounds: (f64, f64),
    rows: usize,
    placed: &[StripLabel],
    measure: &dyn Fn(&str) -> f64,
) -> Option<StripLabel> {
    for text in &request.texts {
        let width = measure(text);
        if width > request.most {
            continue;
        }
        for row in rows_of(request.kind, rows) {
            for left in places(request.anchor, width, bounds) {
                let label = StripLabel {
                    kind: request.kind,
                    text: text.clone(),
                    anchor: request.anchor,
                    span: (left, left + width),
                    row,
                };
                if placed.iter().all(|other| !label.touches(other)) {
                    return Some(label);
                }
            }
        }
    }
    None
}

/// Where a kind of text looks for room, the best row first.
fn rows_of(kind: LabelKind, rows: usize) -> Vec<usize> {
    match kind {
        LabelKind::Cut => vec![1],
        LabelKind::Clamp => (1..rows).chain([0]).collect(),
        LabelKind::Tight | LabelKind::Bend => [0].into_iter().chain(2..rows).chain([1]).collect(),
        LabelKind::Stretch => vec![0],
    }
}

/// Lefts of a text about its anchor, centred first, then a little to either side; inside the
/// bounds.
fn places(anchor: f64, width: f64, (min, max): (f64, f64)) -> impl Iterator<Item = f64> {
    let reach = (width / 2.0 - INSIDE).max(0.0);
    [0.0, 0.5, -0.5, 1.0, -1.0].into_iter().map(move |share| {
        let left = anchor - width / 2.0 + share * reach;
        left.min(max - width).max(min)
    })
}

impl StripLabel {
    /// Whether two texts, or the leader of one and the other's text, come too near.
    pub(super) fn touches(&self, other: &Self) -> bool {
        self.row == other.row && self.overlaps(other, GAP)
            || self.is_crossed_by(other)
            || other.is_crossed_by(self)
    }

    fn overlaps(&self, other: &Self, gap: f64) -> bool {
        self.span.0 < other.span.1 + gap && other.span.0 < self.span.1 + gap
    }

    /// Whether the leader of a lower text runs through this one.
    fn is_crossed_by(&self, lower: &Self) -> bool {
        lower.row > self.row && lower.anchor > self.span.0 - AIR && lower.anchor < self.span.1 + AIR
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn kind(of: u8) -> LabelKind {
        [LabelKind::Tight, LabelKind::Clamp, LabelKind::Bend, LabelKind::Stretch]
            [usize::from(of % 4)]
    }

    fn ends(length: f64) -> Vec<LabelRequest> {
        [(60.0, "A cut"), (60.0 + length, "cut B")]
            .map(|(anchor, text)| LabelRequest {
                kind: LabelKind::Cut,
                texts: vec![text.to_owned()],
                anchor,
                most: f64::INFINITY,
            })
            .into()
    }

    proptest! {
        #[test]
        fn nothing_overlaps_whatever_is_asked_for(
            length in 60.0_f64..2400.0,
            rows in 2_usize..5,
            marks in prop::collection::vec((0_u8..4, 0.0_f64..1.0, 3_usize..40), 0..60),
        ) {
            let mut requests = ends(length);
            requests.extend(marks.iter().map(|(of, share, letters)| LabelRequest {
                kind: kind(*of),
                texts: vec!["x".repeat(*letters), "x".repeat(letters / 2 + 1)],
                anchor: 60.0 + share * length,
                most: f64::INFINITY,
            }));
            let bounds = (6.0, 114.0 + length);
            let placed = place(requests, bounds, rows, &|text| 6.5 * text.len() as f64);
            for (i, a) in placed.iter().enumerate() {
                prop_assert!(a.row < rows && a.span.0 >= bounds.0 - 1e-9);
                prop_assert!(a.anchor >= a.span.0 - 1e-9 && a.anchor <= a.span.1 + 1e-9, "{a:?}");
                for b in &placed[i + 1..] {
                    let beside = a.span.1 <= b.span.0 || b.span.1 <= a.span.0;
                    prop_assert!(a.row != b.row || beside, "{a:?} {b:?}");
                    let (upper, lower) = if a.row < b.row { (a, b) } else { (b, a) };
                    let through = lower.anchor > upper.span.0 && lower.anchor < upper.span.1;
                    prop_assert!(a.row == b.row || !through, "{a:?} {b:?}");
                }
            }
            let cuts = placed.iter().filter(|label| label.kind == LabelKind::Cut).count();
            prop_assert_eq!(cuts, 2);
        }
    }

    #[test]
    fn what_is_wrong_has_the_room_before_what_is_right() {
        let request = |kind, anchor| LabelRequest {
            kind,
            texts: vec!["x".repeat(10)],
            anchor,
            most: f64::INFINITY,
        };
        let requests = vec![
            request(LabelKind::Bend, 300.0),
            request(LabelKind::Stretch, 301.0),
            request(LabelKind::Tight, 302.0),
        ];
        let placed = place(requests, (0.0, 600.0), 2, &|text| 6.5 * text.len() as f64);
        assert_eq!(placed[0].kind, LabelKind::Tight);
        assert_eq!((placed[0].row, placed[0].span), (0, (269.5, 334.5)));
        assert!(placed.iter().all(|label| label.kind != LabelKind::Stretch));
    }
}
