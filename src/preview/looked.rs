//! The site of one state of the library: every file is made when somebody first looks at it.
//! Never mixes two states: what it is made from does not change, and a new state is another site.

use crate::gym::Gym;
use crate::kept::Print;
use crate::site::theme::{Theme, ThemeError};
use crate::site::{Files, Part, owners, sitemap};
use rayon::prelude::*;
use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};

/// A site whose files are made when they are asked for.
pub struct LookedAt {
    /// The print of all that it follows from; none where a file could not be read.
    pub from: Option<Print>,
    /// The print of the theme.
    pub look: Print,
    /// The gym that it shows.
    pub gym: Gym,
    /// How it looks.
    pub theme: Theme,
    parts: Vec<Part>,
    owners: HashMap<String, usize>,
    /// What was made of each part.
    made: Mutex<HashMap<usize, Arc<Files>>>,
}

/// A file, or why it could not be made.
pub type Answer = Result<Vec<u8>, ThemeError>;

impl LookedAt {
    /// The site of `gym` in `theme`.
    pub fn new(gym: Gym, theme: Theme, (from, look): (Option<Print>, Print)) -> LookedAt {
        let parts = Part::all(&gym, &theme);
        let owners = owners(&parts, &gym);
        LookedAt { from, look, gym, theme, parts, owners, made: Mutex::default() }
    }

    /// A file by its name below the site's folder; nothing where the site has none of that name.
    pub fn file(&self, name: &str) -> Option<Answer> {
        let Some(at) = self.owners.get(name) else {
            let pages = self.owners.keys().collect::<std::collections::BTreeSet<_>>();
            let map = (name == "sitemap.xml").then(|| sitemap(&self.gym, pages.into_iter()));
            return Some(Ok(map??.into_bytes()));
        };
        match self.part(*at) {
            Ok(files) => files.get(name).cloned().map(Ok),
            Err(error) => Some(Err(error)),
        }
    }

    /// Makes every file.
    ///
    /// # Errors
    /// The first template that does not fit its page.
    pub fn all(&self) -> Result<(), ThemeError> {
        (0..self.parts.len()).into_par_iter().try_for_each(|at| self.part(at).map(drop))
    }

    /// Two who ask at once may both make it: they make the same, and nobody waits for anybody.
    fn part(&self, at: usize) -> Result<Arc<Files>, ThemeError> {
        let known = || self.made.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(files) = known().get(&at) {
            return Ok(Arc::clone(files));
        }
        let files: Files = self.parts[at].make(&self.gym, &self.theme)?.into_iter().collect();
        let files = Arc::new(files);
        known().insert(at, Arc::clone(&files));
        Ok(files)
    }
}
