//! Ids: the words by which entries name each other.
//! Never bare strings: a kit id cannot stand where a movement id belongs.

use std::fmt;

macro_rules! id_types {
    ($($(#[$doc:meta])* $name:ident),* $(,)?) => {$(
        $(#[$doc])*
        #[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
        pub struct $name(pub String);

        impl $name {
            /// The id as written.
            pub fn as_str(&self) -> &str {
                &self.0
            }
        }

        impl AsRef<str> for $name {
            fn as_ref(&self) -> &str {
                &self.0
            }
        }

        impl From<&str> for $name {
            fn from(text: &str) -> Self {
                $name(text.to_string())
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }
    )*};
}

id_types! {
    /// A movement, by the name of its file.
    MovementId,
    /// A ladder, by the name of its file.
    LadderId,
    /// A session, by the name of its file.
    SessionId,
    /// A cycle, by the name of its file.
    CycleId,
    /// A piece of kit in `words/kit.yaml`.
    KitId,
    /// A trait in `words/traits.yaml`.
    TraitId,
    /// A change in `words/changes.yaml`.
    ChangeId,
    /// A caution in `words/cautions.yaml`.
    CautionId,
    /// A fault in `words/faults.yaml`.
    FaultId,
    /// A pattern in `words/patterns.yaml`.
    PatternId,
    /// A muscle in `words/muscles.yaml`.
    MuscleId,
    /// A source in `words/sources.yaml`.
    SourceId,
    /// A setting of a movement, such as `lean`.
    SettingName,
    /// What a member is called on the roster, such as `wren`.
    Nickname,
}

/// True for a well-formed id: lower-case ASCII letters and digits in words joined by single
/// hyphens, so that it is the same on every file system and in every address.
pub fn is_well_formed(id: &str) -> bool {
    !id.is_empty()
        && id.split('-').all(|word| {
            !word.is_empty() && word.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit())
        })
}

/// The longest id: with its folder and ending it is a file's name on every system.
pub const LONGEST_ID: usize = 80;

/// True for a word that is no id: the page that lists the others is called `index`, and on some systems
/// the rest are devices, not files (Microsoft, Naming Files, Paths, and Namespaces; from memory).
pub fn is_taken(id: &str) -> bool {
    let numbered = |name: &str| {
        id.strip_prefix(name)
            .is_some_and(|rest| rest.len() == 1 && rest.as_bytes()[0].is_ascii_digit())
    };
    ["index", "con", "prn", "aux", "nul"].contains(&id) || numbered("com") || numbered("lpt")
}

/// True for a nickname as a roster has it: letters and digits of any language, in words joined by
/// single hyphens, so that it is one word in a message and one key in a file.
pub fn is_nickname(name: &str) -> bool {
    name.chars().count() <= 40
        && name.split('-').all(|word| !word.is_empty() && word.chars().all(char::is_alphanumeric))
}
