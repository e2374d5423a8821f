//! What a screen reader is told: which pieces of the pages make a heading, a list, a table, a picture.
//!
//! Start at [`Tags`].

use super::blocks::Block;
use super::pieces::Part;
use krilla::tagging::{Identifier, ListNumbering, Node, TableHeaderScope, Tag, TagGroup, TagKind, TagTree};
use std::num::NonZeroU16;

/// Pieces with their parts, in reading order.
type Placed = Vec<(Part, Identifier)>;

/// The pieces written so far, block by block.
pub(super) struct Tags {
    of_block: Vec<Placed>,
}

impl Tags {
    pub(super) fn new(blocks: &[Block]) -> Self {
        Self { of_block: vec![Vec::new(); blocks.len()] }
    }

    /// Notes a piece; decoration is not read.
    pub(super) fn add(&mut self, block: usize, part: Part, place: Identifier) {
        if part == Part::Decoration {
            return;
        }
        if let Some(list) = self.of_block.get_mut(block) {
            list.push((part, place));
        }
    }

    /// The tree of all blocks, in reading order.
    pub(super) fn tree(self, blocks: &[Block]) -> TagTree {
        let mut tree = TagTree::new().with_lang(Some("en".into()));
        for (block, pieces) in blocks.iter().zip(self.of_block) {
            if !pieces.is_empty() {
                tree.push(group(block, pieces));
            }
        }
        tree
    }
}

fn group(block: &Block, pieces: Placed) -> TagGroup {
    let heading = |level: u16, title: &str| {
        let level = NonZeroU16::new(level).unwrap_or(NonZeroU16::MIN);
        Tag::Hn(level, Some(title.to_owned())).into()
    };
    match block {
        Block::Letterhead { .. } => all(Tag::P.into(), pieces),
        Block::Title(title) => all(heading(1, title), pieces),
        Block::PageHeading(title) | Block::Section(title) => all(heading(2, title), pieces),
        Block::Heading(title) => all(heading(3, title), pieces),
        Block::Paragraph(_) | Block::Verdict(_) | Block::Small(_) => all(Tag::P.into(), pieces),
        Block::Picture { words, .. } => all(Tag::Figure(Some(words.clone())).into(), pieces),
        Block::List(_) | Block::Facts(_) | Block::Basis(_) => list(pieces),
        Block::Table(_) | Block::Band(_) => table(pieces),
    }
}

fn all(kind: TagKind, pieces: Placed) -> TagGroup {
    TagGroup::with_children(kind, pieces.into_iter().map(|(_, place)| Node::from(place)).collect())
}

fn list(pieces: Placed) -> TagGroup {
    let mut list = TagGroup::new(Tag::L(ListNumbering::Circle));
    for (_, places) in runs(pieces, |part| match part {
        Part::Item(i) => (i, 0),
        _ => (0, 0),
    }) {
        let mut item = TagGroup::new(Tag::LI);
        item.push(all(Tag::LBody.into(), places));
        list.push(item);
    }
    list
}

fn table(pieces: Placed) -> TagGroup {
    let mut table = TagGroup::new(Tag::Table);
    let rows = runs(pieces, |part| match part {
        Part::Cell(row, _) => (row, 0),
        _ => (0, 0),
    });
    for ((row, _), places) in rows {
        let mut line = TagGroup::new(Tag::TR);
        let cells = runs(places, |part| match part {
            Part::Cell(row, column) => (row, column),
            _ => (0, 0),
        });
        for ((_, column), places) in cells {
            let kind: TagKind = match (row, column) {
                (0, _) => Tag::TH(TableHeaderScope::Column).into(),
                (_, 0) => Tag::TH(TableHeaderScope::Row).into(),
                _ => Tag::TD.into(),
            };
            line.push(all(kind, places));
        }
        table.push(line);
    }
    table
}

/// Pieces that belong together, in the order of their first.
fn runs(pieces: Placed, key: impl Fn(Part) -> (usize, usize)) -> Vec<((usize, usize), Placed)> {
    let mut runs: Vec<((usize, usize), Placed)> = Vec::new();
    for (part, place) in pieces {
        match runs.iter_mut().find(|(of, _)| *of == key(part)) {
            Some((_, run)) => run.push((part, place)),
            None => runs.push((key(part), vec![(part, place)])),
        }
    }
    runs
}
