//! How well a few typed letters fit a name.

/// A letter that begins a word is worth this much more.
const WORD_START: i32 = 8;
/// A letter right behind the one before.
const IN_A_ROW: i32 = 12;
/// The name begins with it.
const AT_START: i32 = 12;
/// What was typed stands in the name as a word, or as words.
const WHOLE: i32 = 40;

/// How well `typed` fits `name`, the more the better; none where its letters are not in it in that
/// order. Case and spaces do not matter. Among names that fit alike the shorter is better.
pub(super) fn fit(typed: &str, name: &str) -> Option<i32> {
    let wanted: Vec<char> = folded(typed).into_iter().filter(|c| !c.is_whitespace()).collect();
    let letters = folded(name);
    if wanted.is_empty() {
        return Some(0);
    }
    // best[j]: the best worth with the wanted letters so far, the last of them at letter j.
    let mut best: Vec<Option<i32>> = Vec::new();
    for (place, want) in wanted.iter().enumerate() {
        let mut next = vec![None; letters.len()];
        let mut before: Option<i32> = None;
        for j in 0..letters.len() {
            if j >= 1 && place > 0 {
                before = before.max(best[j - 1]);
            }
            if letters[j] != *want {
                continue;
            }
            let own = worth(&letters, j);
            next[j] = if place == 0 {
                Some(own)
            } else {
                let row = j.checked_sub(1).and_then(|j| best[j]).map(|worth| worth + IN_A_ROW);
                before.max(row).map(|worth| worth + own)
            };
        }
        best = next;
    }
    let length = i32::try_from(letters.len()).unwrap_or(i32::MAX / 2).min(200);
    let whole = if has_words(typed, name) { WHOLE } else { 0 };
    best.into_iter().flatten().max().map(|worth| (worth + whole) * 8 - length)
}

fn has_words(typed: &str, name: &str) -> bool {
    let words = |text: &str| -> Vec<String> {
        let words = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
        words.map(str::to_lowercase).collect()
    };
    let (typed, name) = (words(typed), words(name));
    !typed.is_empty() && name.windows(typed.len()).any(|some| some == typed)
}

fn worth(letters: &[char], at: usize) -> i32 {
    let starts_word = at == 0 || !letters[at - 1].is_alphanumeric();
    let start = if at == 0 { AT_START } else { 0 };
    1 + start + if starts_word { WORD_START } else { 0 }
}

fn folded(text: &str) -> Vec<char> {
    text.chars().flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn best<'a>(typed: &str, names: &[&'a str]) -> Vec<&'a str> {
        let mut fitting: Vec<_> =
            names.iter().filter_map(|name| Some((fit(typed, name)?, *name))).collect();
        fitting.sort_by_key(|(worth, _)| std::cmp::Reverse(*worth));
        fitting.into_iter().map(|(_, name)| name).collect()
    }

    #[test]
    fn a_word_that_was_typed_comes_before_one_that_only_begins_so() {
        assert_eq!(best("light", &["Lighten the pictures", "Theme: light"])[0], "Theme: light");
        assert_eq!(
            best("cut list", &["Cutlist of all", "Save the cut list"])[0],
            "Save the cut list"
        );
    }

    #[test]
    fn letters_have_to_come_in_their_order() {
        assert!(fit("sv", "Save").is_some());
        assert!(fit("vs", "Save").is_none());
        assert!(fit("saves", "Save").is_none());
        assert_eq!(fit("", "anything"), Some(0));
    }

    #[test]
    fn the_beginning_goes_before_the_middle_and_words_before_letters() {
        assert_eq!(
            best("sa", &["Unsaid", "Save as\u{2026}", "Save"]),
            ["Save", "Save as\u{2026}", "Unsaid"]
        );
        assert_eq!(best("lv", &["Oil valve", "Link views"]), ["Link views", "Oil valve"]);
        assert_eq!(best("next f", &["Next routing", "Next finding"]), ["Next finding"]);
        assert_eq!(
            best("fue", &["Filter to fuel rail", "Fuel rail"]),
            ["Fuel rail", "Filter to fuel rail"]
        );
        assert_eq!(best("dupo", &["Duplicate", "Duplicate routing"]), ["Duplicate routing"]);
    }

    #[test]
    fn letters_in_a_row_go_before_scattered_ones() {
        assert_eq!(best("rail", &["xrxaxixl", "xrail"])[0], "xrail");
    }

    proptest! {
        #[test]
        fn a_name_fits_itself_best_and_any_of_its_letters_fit(name in "[a-zA-Z][a-zA-Z ]{0,23}", keep in proptest::collection::vec(any::<bool>(), 24)) {
            let some: String = name.chars().zip(&keep).filter(|(_, keep)| **keep).map(|(c, _)| c).collect();
            prop_assert!(fit(&some, &name).is_some());
            // A letter that is not in the name: one that is may stand in a row with it.
            let longer = format!("9{name}");
            prop_assert!(fit(&name, &name) >= fit(&name, &longer));
        }

        #[test]
        fn nothing_typed_is_too_odd(typed in any::<String>(), name in any::<String>()) {
            let _ = fit(&typed, &name);
        }
    }
}
