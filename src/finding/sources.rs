//! The files that were read, and places in them.
//! Never reads a disk: the reader hands the texts in.

use std::ops::Deref;

/// A file of the library, by its place in [`Sources`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct FileId(pub u32);

/// A stretch of a file in bytes, end not included. `0..0` means the file as a whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// First byte.
    pub start: u32,
    /// One past the last byte.
    pub end: u32,
}

impl Span {
    /// A stretch of `file`, in bytes.
    pub fn new(file: FileId, start: usize, end: usize) -> Self {
        let clamp = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        Span { file, start: clamp(start), end: clamp(end) }
    }

    /// The file as a whole.
    pub fn whole(file: FileId) -> Self {
        Span { file, start: 0, end: 0 }
    }

    /// True when the span means the file and no word in it.
    pub fn is_whole_file(self) -> bool {
        self.start == 0 && self.end == 0
    }
}

/// A value and the place where the coach wrote it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Placed<T> {
    /// What was written.
    pub value: T,
    /// Where.
    pub span: Span,
}

impl<T> Placed<T> {
    /// `value` as written at `span`.
    pub fn new(value: T, span: Span) -> Self {
        Placed { value, span }
    }
}

impl<T> Deref for Placed<T> {
    type Target = T;
    fn deref(&self) -> &T {
        &self.value
    }
}

#[derive(Debug, Clone)]
struct File {
    name: String,
    text: String,
    line_starts: Vec<usize>,
}

/// Every file that was read: name relative to the library folder, and text.
#[derive(Debug, Clone, Default)]
pub struct Sources {
    files: Vec<File>,
}

impl Sources {
    /// Adds a file and returns its id. `name` uses `/` on every system.
    pub fn add(&mut self, name: impl Into<String>, text: impl Into<String>) -> FileId {
        let text = text.into();
        let line_starts = line_starts(&text);
        self.files.push(File { name: plain(&name.into()), text, line_starts });
        FileId(u32::try_from(self.files.len() - 1).unwrap_or(u32::MAX))
    }

    /// Puts another text in the place of a file's.
    pub fn replace(&mut self, file: FileId, text: String) {
        if let Some(known) = self.files.get_mut(file.0 as usize) {
            known.line_starts = line_starts(&text);
            known.text = text;
        }
    }

    /// The name of a file, as people should see it.
    pub fn name(&self, file: FileId) -> &str {
        self.files.get(file.0 as usize).map_or("", |f| &f.name)
    }

    /// The text of a file; empty for one that could not be read.
    pub fn text(&self, file: FileId) -> &str {
        self.files.get(file.0 as usize).map_or("", |f| &f.text)
    }

    /// The words of a span.
    pub fn words(&self, span: Span) -> &str {
        self.text(span.file).get(span.start as usize..span.end as usize).unwrap_or("")
    }

    /// Line and column, both from 1; the column counts characters, not bytes.
    pub fn line_column(&self, file: FileId, byte: u32) -> (usize, usize) {
        let Some(found) = self.files.get(file.0 as usize) else { return (1, 1) };
        let byte = (byte as usize).min(found.text.len());
        let line = found.line_starts.partition_point(|start| *start <= byte).max(1);
        let before = found.text.get(found.line_starts[line - 1]..byte).unwrap_or("");
        (line, before.trim_start_matches('\u{feff}').chars().count() + 1)
    }

    /// Every file, in the order read.
    pub fn ids(&self) -> impl Iterator<Item = FileId> {
        (0..u32::try_from(self.files.len()).unwrap_or(u32::MAX)).map(FileId)
    }

    /// The place of `part` within `span`; the whole of `span` where it does not stand there.
    pub fn part(&self, span: Span, part: &str) -> Span {
        match self.words(span).find(part) {
            Some(at) if !part.is_empty() => {
                let start = span.start as usize + at;
                Span::new(span.file, start, start + part.len())
            }
            _ => span,
        }
    }

    /// How many files were read.
    pub fn len(&self) -> usize {
        self.files.len()
    }

    /// True when nothing was read.
    pub fn is_empty(&self) -> bool {
        self.files.is_empty()
    }
}

/// A name or a word as it may stand in a terminal: signs that steer one are shown as `\u{fffd}`.
pub fn plain(text: &str) -> String {
    let steers =
        |c: char| c.is_control() || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    text.replace(steers, "\u{fffd}")
}

fn line_starts(text: &str) -> Vec<usize> {
    std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters_and_lines_survive_crlf() {
        let mut sources = Sources::default();
        let file = sources.add("a.yaml", "näme: x\r\nb: y\r\n");
        assert_eq!(sources.line_column(file, 7), (1, 7));
        assert_eq!(sources.line_column(file, 13), (2, 4));
    }
}
