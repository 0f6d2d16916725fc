//! The document's structure for screen readers and other programs: headings, paragraphs, tables, lists and
//! figures in reading order (tagged PDF, ISO 32000-1, 14.8).
//!
//! `sheet` builds the structure while it places marks, each of which names its node. `ink` turns the
//! structure into the file's tag tree. Rules, shading, headers and footers of pages belong to no node.

use std::num::NonZeroU16;

use krilla::tagging::{Identifier, ListNumbering, TableHeaderScope, Tag, TagGroup, TagTree};

/// The role of a node.
#[derive(Clone, Debug, PartialEq)]
pub enum Role {
    /// A heading: level 1 for the document's title, 2 for a section, 3 within a section.
    Heading(u16, String),
    /// A paragraph.
    Paragraph,
    /// A list.
    List,
    /// An item of a list.
    Item,
    /// A table.
    Table,
    /// A row of a table.
    Row,
    /// The heading of a column.
    ColumnHead,
    /// The heading of a row.
    RowHead,
    /// An ordinary cell.
    Cell,
    /// A drawing or a picture, with a description in words.
    Figure(String),
}

#[derive(Clone, Debug)]
struct Node {
    role: Role,
    children: Vec<usize>,
}

/// The nodes of a document in reading order.
#[derive(Clone, Debug, Default)]
pub struct Structure {
    nodes: Vec<Node>,
    top: Vec<usize>,
    open: Vec<usize>,
}

impl Structure {
    /// Opens a node inside the currently open node.
    pub fn open(&mut self, role: Role) -> usize {
        let node = self.nodes.len();
        self.nodes.push(Node { role, children: Vec::new() });
        match self.open.last().and_then(|parent| self.nodes.get_mut(*parent)) {
            Some(parent) => parent.children.push(node),
            None => self.top.push(node),
        }
        self.open.push(node);
        node
    }

    /// Closes the node that was opened last.
    pub fn close(&mut self) {
        self.open.pop();
    }

    /// Returns the open node.
    pub fn current(&self) -> Option<usize> {
        self.open.last().copied()
    }

    /// Returns the tag tree in krilla's form, with the drawn content of each node.
    pub fn tree(&self, drawn: &mut [Vec<Identifier>]) -> TagTree {
        let mut tree = TagTree::new();
        for node in &self.top {
            if let Some(group) = self.group(*node, drawn) {
                tree.push(group);
            }
        }
        tree
    }

    /// Returns the number of nodes.
    pub fn len(&self) -> usize {
        self.nodes.len()
    }

    fn group(&self, at: usize, drawn: &mut [Vec<Identifier>]) -> Option<TagGroup> {
        let node = self.nodes.get(at)?;
        let mut group = match &node.role {
            Role::Heading(level, title) => TagGroup::new(Tag::Hn(
                NonZeroU16::new(*level).unwrap_or(NonZeroU16::MIN),
                Some(title.clone()),
            )),
            Role::Paragraph => TagGroup::new(Tag::P),
            Role::List => TagGroup::new(Tag::L(ListNumbering::None)),
            Role::Item => TagGroup::new(Tag::LI),
            Role::Table => TagGroup::new(Tag::Table),
            Role::Row => TagGroup::new(Tag::TR),
            Role::ColumnHead => TagGroup::new(Tag::TH(TableHeaderScope::Column)),
            Role::RowHead => TagGroup::new(Tag::TH(TableHeaderScope::Row)),
            Role::Cell => TagGroup::new(Tag::TD),
            Role::Figure(alt) => TagGroup::new(Tag::Figure(Some(alt.clone()))),
        };
        for part in drawn.get_mut(at).map(std::mem::take).unwrap_or_default() {
            // The text of an item or of a cell is a body node of its own.
            match node.role {
                Role::Item => {
                    let mut body = TagGroup::new(Tag::LBody);
                    body.push(part);
                    group.push(body);
                }
                _ => group.push(part),
            }
        }
        for child in &node.children {
            if let Some(child) = self.group(*child, drawn) {
                group.push(child);
            }
        }
        Some(group)
    }
}
