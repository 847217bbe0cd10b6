//! What the user likes, kept in the configuration folder. A file that is missing is the usual; one
//! that is damaged is put aside, and said so.

use crate::units::{LengthUnit, shown_path};
use std::path::{Path, PathBuf};

use etcetera::BaseStrategy as _;
use serde_json::{Map, Value};

/// Smallest and largest text, per cent of the usual.
pub const TEXT_PERCENT: [u32; 2] = [80, 200];
/// One step of the size of text.
pub const TEXT_STEP: u32 = 10;

/// Light or dark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Look {
    /// As the desktop has it.
    #[default]
    System,
    /// Always light.
    Light,
    /// Always dark.
    Dark,
}

impl Look {
    /// All, with the word of the file and of the menu.
    pub const ALL: [(Self, &'static str, &'static str); 3] = [
        (Self::System, "system", "As the system"),
        (Self::Light, "light", "Light"),
        (Self::Dark, "dark", "Dark"),
    ];

    /// What it is for.
    pub const fn about(self) -> &'static str {
        match self {
            Self::System => "Light or dark as the desktop has it",
            Self::Light => "Ink on paper",
            Self::Dark => "Easy on the eyes at night",
        }
    }
}

/// Where the window was, in the desktop's points.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placed {
    /// Width and height inside its frame.
    pub size: [f32; 2],
    /// Left and top of its frame; none where the desktop does not tell.
    pub at: Option<[f32; 2]>,
    /// Whether it filled the screen.
    pub maximised: bool,
}

/// The settings.
#[derive(Debug, Clone, PartialEq)]
pub struct Settings {
    /// Light or dark.
    pub look: Look,
    /// Text at 7 : 1 and clear edges.
    pub high_contrast: bool,
    /// Size of text and controls, per cent.
    pub text_percent: u32,
    /// Where the window was.
    pub window: Option<Placed>,
    /// Whether the views move together.
    pub views_linked: bool,
    /// The views that are shown, by name; none for all.
    pub views: Option<Vec<String>>,
    /// The units last selected: a new bay starts in them.
    pub units: LengthUnit,
    /// Where the parts library is, where it is not beside the settings.
    pub parts_file: Option<PathBuf>,
}

impl Default for Settings {
    fn default() -> Self {
        Self {
            look: Look::System,
            high_contrast: false,
            text_percent: 100,
            window: None,
            views_linked: true,
            views: None,
            units: LengthUnit::default(),
            parts_file: None,
        }
    }
}

/// The settings and their file.
#[derive(Debug, Default)]
pub struct Store {
    /// As they now are.
    pub settings: Settings,
    path: Option<PathBuf>,
    written: Option<Settings>,
    /// Keys of the file that this version does not know.
    rest: Map<String, Value>,
    /// What was wrong with the file.
    faults: Vec<String>,
}

impl Store {
    /// The user's own.
    pub fn of_the_user() -> Self {
        match etcetera::choose_base_strategy() {
            Ok(dirs) => Self::stored_in(dirs.config_dir().join("hosewright").join("settings.json")),
            Err(_) => Self::default(),
        }
    }

    /// The settings of this file.
    pub fn stored_in(path: PathBuf) -> Self {
        let mut store = Self::default();
        match std::fs::read_to_string(&path) {
            Ok(text) => match serde_json::from_str(&text) {
                Ok(Value::Object(map)) => {
                    (store.settings, store.rest, store.faults) = from_map(map);
                }
                Ok(_) => store.faults.push("it is no JSON object".to_owned()),
                Err(why) => store.faults.push(why.to_string()),
            },
            Err(why) if why.kind() == std::io::ErrorKind::NotFound => {}
            Err(why) => store.faults.push(why.to_string()),
        }
        if store.faults.is_empty() {
            store.written = Some(store.settings.clone());
        }
        store.path = Some(path);
        store
    }

    /// Where the parts library is kept; none where there is no folder for settings.
    pub fn parts_path(&self) -> Option<PathBuf> {
        let beside = || Some(self.path.as_deref()?.with_file_name("parts.json"));
        self.settings.parts_file.clone().or_else(beside)
    }

    /// What was wrong with the file, in a sentence, said once.
    pub fn take_word(&mut self) -> Option<String> {
        let path = shown_path(self.path.as_deref()?);
        let faults = self.faults.join("; ");
        (!faults.is_empty())
            .then(|| format!("The settings in {path} were not all understood ({faults}); the usual ones are used"))
            .inspect(|_| self.set_aside())
    }

    /// Keeps a file that was not understood beside the one that will take its place.
    fn set_aside(&mut self) {
        self.faults.clear();
        if let Some(path) = &self.path {
            let _ = std::fs::copy(path, aside(path));
        }
    }

    /// Writes the settings where they have changed. Settings that cannot be kept are a comfort lost,
    /// no reason to disturb the user.
    pub fn write(&mut self) {
        let Some(path) = &self.path else { return };
        if self.written.as_ref() == Some(&self.settings) {
            return;
        }
        let mut map = to_map(&self.settings);
        map.extend(self.rest.clone());
        let Ok(text) = serde_json::to_vec_pretty(&map) else { return };
        if let Some(folder) = path.parent() {
            let _ = std::fs::create_dir_all(folder);
        }
        if crate::document::file::replace(path, |out| out.write_all(&text)).is_ok() {
            self.written = Some(self.settings.clone());
        }
    }
}

fn aside(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(".not-understood");
    name.into()
}

fn to_map(settings: &Settings) -> Map<String, Value> {
    let look = Look::ALL.iter().find(|(look, ..)| *look == settings.look);
    let mut map = Map::new();
    map.insert("look".into(), look.map_or("system", |(_, word, _)| word).into());
    map.insert("high_contrast".into(), settings.high_contrast.into());
    map.insert("text_percent".into(), settings.text_percent.into());
    map.insert("views_linked".into(), settings.views_linked.into());
    map.insert("units".into(), settings.units.sign().into());
    if let Some(views) = &settings.views {
        map.insert("views".into(), views.clone().into());
    }
    if let Some(path) = settings.parts_file.as_deref().and_then(Path::to_str) {
        map.insert("parts_file".into(), path.into());
    }
    if let Some(Placed { size, at, maximised }) = settings.window {
        let mut window = Map::new();
        window.insert("size".into(), size.to_vec().into());
        if let Some(at) = at {
            window.insert("at".into(), at.to_vec().into());
        }
        window.insert("maximised".into(), maximised.into());
        map.insert("window".into(), window.into());
    }
    map
}

/// The settings, what is not known, and what was not understood.
fn from_map(mut map: Map<String, Value>) -> (Settings, Map<String, Value>, Vec<String>) {
    let mut faults = Vec::new();
    let usual = Settings::default();
    let mut take = |key: &str, read: &mut dyn FnMut(&Value) -> bool| {
        if let Some(value) = map.shift_remove(key)
            && !read(&value)
        {
            faults.push(format!("\u{201c}{key}\u{201d} is {value}"));
        }
    };
    let mut found = usual;
    take("look", &mut |value| {
        let known = Look::ALL.iter().find(|(_, word, _)| value.as_str() == Some(word));
        known.is_some_and(|(look, ..)| {
            found.look = *look;
            true
        })
    });
    take("high_contrast", &mut |value| read_bool(value, &mut found.high_contrast));
    take("views_linked", &mut |value| read_bool(value, &mut found.views_linked));
    take("text_percent", &mut |value| {
        let percent = value.as_u64().and_then(|percent| u32::try_from(percent).ok());
        let [least, most] = TEXT_PERCENT;
        percent.filter(|percent| (least..=most).contains(percent)).is_some_and(|percent| {
            found.text_percent = percent;
            true
        })
    });
    take("units", &mut |value| {
        let known = [LengthUnit::Mm, LengthUnit::Inch];
        known.into_iter().find(|unit| value.as_str() == Some(unit.sign())).is_some_and(|unit| {
            found.units = unit;
            true
        })
    });
    take("parts_file", &mut |value| {
        found.parts_file = value.as_str().filter(|path| !path.is_empty()).map(PathBuf::from);
        found.parts_file.is_some()
    });
    take("views", &mut |value| {
        let names = value.as_array().map(|names| names.iter().map(|name| name.as_str()));
        found.views = names.and_then(|names| names.map(|name| name.map(str::to_owned)).collect());
        found.views.is_some()
    });
    take("window", &mut |value| {
        found.window = placed(value);
        found.window.is_some()
    });
    (found, map, faults)
}

fn read_bool(value: &Value, into: &mut bool) -> bool {
    value.as_bool().is_some_and(|value| {
        *into = value;
        true
    })
}

/// A window nobody could see or hold is none.
fn placed(value: &Value) -> Option<Placed> {
    let pair = |key: &str| {
        let [x, y] = value.get(key)?.as_array()?.as_slice() else { return None };
        let number = |value: &Value| {
            let number = value.as_f64()? as f32;
            (number.is_finite() && number.abs() < 1e5).then_some(number)
        };
        Some([number(x)?, number(y)?])
    };
    let size = pair("size").filter(|[width, height]| *width >= 100.0 && *height >= 100.0)?;
    let maximised = value.get("maximised").and_then(Value::as_bool).unwrap_or(false);
    Some(Placed { size, at: pair("at"), maximised })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn any_settings() -> impl Strategy<Value = Settings> {
        let window = (100.0_f32..9e3, 100.0_f32..9e3, any::<Option<(i16, i16)>>(), any::<bool>());
        let window = window.prop_map(|(width, height, at, maximised)| Placed {
            size: [width, height],
            at: at.map(|(x, y)| [f32::from(x), f32::from(y)]),
            maximised,
        });
        let look = prop_oneof![Just(Look::System), Just(Look::Light), Just(Look::Dark)];
        let views = proptest::option::of(proptest::collection::vec(".{0,8}", 0..5));
        let flags = (any::<bool>(), any::<bool>(), any::<bool>());
        let parts_file = proptest::option::of("[a-z]{1,8}(/[a-z]{1,8})?[.]json");
        let views = (views, parts_file);
        (look, flags, 80_u32..=200, proptest::option::of(window), views).prop_map(
            |(look, (high_contrast, views_linked, is_inch), text_percent, window, views)| {
                let units = if is_inch { LengthUnit::Inch } else { LengthUnit::Mm };
                let (views, parts_file) = views;
                let parts_file = parts_file.map(PathBuf::from);
                let settings = Settings { views, units, parts_file, ..Settings::default() };
                Settings { look, high_contrast, text_percent, window, views_linked, ..settings }
            },
        )
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]
        #[test]
        fn what_is_kept_comes_back(settings in any_settings()) {
            let folder = tempfile::tempdir().unwrap();
            let path = folder.path().join("deep").join("settings.json");
            let mut store = Store::stored_in(path.clone());
            store.settings = settings.clone();
            store.write();
            let mut again = Store::stored_in(path);
            prop_assert_eq!(&again.settings, &settings);
            prop_assert_eq!(again.take_word(), None);
        }
    }

    #[test]
    fn a_missing_file_is_the_usual_without_a_word() {
        let folder = tempfile::tempdir().unwrap();
        let mut store = Store::stored_in(folder.path().join("settings.json"));
        assert_eq!(store.settings, Settings::default());
        assert_eq!(store.take_word(), None);
    }

    #[test]
    fn a_damaged_file_is_told_and_put_aside() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("settings.json");
        for text in ["{ not json", "[1]", "", "\u{0}"] {
            std::fs::write(&path, text).unwrap();
            let mut store = Store::stored_in(path.clone());
            assert_eq!(store.settings, Settings::default());
            let word = store.take_word().unwrap();
            assert!(word.contains("not all understood"), "{word}");
            assert_eq!(store.take_word(), None, "said once");
            store.write();
            assert_eq!(std::fs::read_to_string(aside(&path)).unwrap(), text);
            assert_eq!(Store::stored_in(path.clone()).take_word(), None);
        }
    }

    #[test]
    fn one_bad_value_spoils_only_itself_and_unknown_keys_stay() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("settings.json");
        let text =
            r#"{"look":"dark","text_percent":900,"of_tomorrow":{"a":1},"window":{"size":[0,5]}}"#;
        std::fs::write(&path, text).unwrap();
        let mut store = Store::stored_in(path.clone());
        assert_eq!((store.settings.look, store.settings.text_percent), (Look::Dark, 100));
        let word = store.take_word().unwrap();
        assert!(word.contains("\u{201c}text_percent\u{201d} is 900") && word.contains("window"));
        store.settings.high_contrast = true;
        store.write();
        let kept: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
        assert_eq!(kept["of_tomorrow"]["a"], 1);
        assert_eq!(kept["look"], "dark");
    }
}
