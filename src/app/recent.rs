//! The files opened lately, kept in the user's configuration folder.

use std::path::{Path, PathBuf};

use etcetera::BaseStrategy as _;

/// How many are remembered.
const COUNT: usize = 10;

/// The list, newest first.
#[derive(Debug, Clone, Default)]
pub struct Recent {
    paths: Vec<PathBuf>,
    store: Option<PathBuf>,
}

impl Recent {
    /// The user's own list; an empty one where it cannot be read.
    pub fn of_the_user() -> Self {
        let folder = etcetera::choose_base_strategy().ok().map(|dirs| dirs.config_dir());
        match folder {
            Some(folder) => Self::stored_in(folder.join("hosewright").join("recent.json")),
            None => Self::default(),
        }
    }

    /// The list in this file.
    pub fn stored_in(store: PathBuf) -> Self {
        let text = std::fs::read_to_string(&store).unwrap_or_default();
        let paths: Vec<String> = serde_json::from_str(&text).unwrap_or_default();
        let paths = paths.into_iter().map(PathBuf::from).take(COUNT).collect();
        Self { paths, store: Some(store) }
    }

    /// The paths, newest first.
    pub fn paths(&self) -> &[PathBuf] {
        &self.paths
    }

    /// Notes a file as the newest.
    pub fn note(&mut self, path: &Path) {
        let path = std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
        self.paths.retain(|known| *known != path);
        self.paths.insert(0, path);
        self.paths.truncate(COUNT);
        self.write();
    }

    /// Forgets all.
    pub fn clear(&mut self) {
        self.paths.clear();
        self.write();
    }

    /// A list that cannot be kept is a comfort lost, no reason to disturb the user.
    fn write(&self) {
        let Some(store) = &self.store else { return };
        let paths: Vec<_> = self.paths.iter().map(|path| path.to_string_lossy()).collect();
        let Ok(text) = serde_json::to_vec_pretty(&paths) else { return };
        if let Some(folder) = store.parent() {
            let _ = std::fs::create_dir_all(folder);
        }
        let _ = crate::document::file::replace(store, |out| out.write_all(&text));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_newest_comes_first_once_and_is_kept() {
        let folder = tempfile::tempdir().unwrap();
        let store = folder.path().join("deep").join("recent.json");
        let mut recent = Recent::stored_in(store.clone());
        for name in ["/a", "/b", "/a"] {
            recent.note(Path::new(name));
        }
        assert_eq!(recent.paths(), [PathBuf::from("/a"), PathBuf::from("/b")]);
        assert_eq!(Recent::stored_in(store.clone()).paths(), recent.paths());
        for k in 0..20 {
            recent.note(Path::new(&format!("/{k}")));
        }
        assert_eq!(recent.paths().len(), COUNT);
        recent.clear();
        assert!(Recent::stored_in(store).paths().is_empty());
    }

    #[test]
    fn a_damaged_list_is_an_empty_one() {
        let folder = tempfile::tempdir().unwrap();
        let store = folder.path().join("recent.json");
        std::fs::write(&store, "{ not a list").unwrap();
        assert!(Recent::stored_in(store).paths().is_empty());
    }
}
