//! What a page says to somebody who hears it read: the PDF's tags (ISO 32000-1, 14.8), made while its marks are put down.
//! What lies in no part of the page is decoration.

use std::num::NonZeroU16;

use krilla::surface::Surface;
use krilla::tagging::{
    Artifact, ArtifactType, ContentTag, Node, SpanTag, TableHeaderScope, Tag, TagGroup, TagKind,
};
use mastwright_engine::drawing::marks::{PageMark, PartOfPage};
use mastwright_engine::drawing::pages::Page;

use crate::letters::Letters;
use crate::write::put;

/// Puts a page's marks down and gives its tags: its heading first, wherever the title block stands.
pub(crate) fn tagged(surface: &mut Surface<'_>, page: &Page, letters: &[Letters; 2]) -> TagGroup {
    let (mut first, mut rest) = (Vec::new(), Vec::new());
    for mark in page.marks() {
        let is_title = matches!(mark, PageMark::Part { is: PartOfPage::Title, .. });
        let nodes = if is_title { &mut first } else { &mut rest };
        nodes.extend(node(surface, mark, letters));
    }
    first.append(&mut rest);
    TagGroup::with_children(Tag::Section, first)
}

/// The tags of a mark; none of one that is decoration.
fn node(surface: &mut Surface<'_>, mark: &PageMark, letters: &[Letters; 2]) -> Option<Node> {
    let PageMark::Part { is, marks } = mark else {
        surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::Layout)));
        put(surface, mark, letters);
        surface.end_tagged();
        return None;
    };
    let children = match is {
        PartOfPage::Figure(_) => vec![whole(surface, marks, letters)],
        PartOfPage::Table | PartOfPage::Row => {
            marks.iter().filter_map(|mark| node(surface, mark, letters)).collect()
        }
        _ => lines(surface, marks, letters),
    };
    Some(TagGroup::with_children(kind(is, marks), children).into())
}

fn kind(is: &PartOfPage, marks: &[PageMark]) -> TagKind {
    // PDF/UA has a heading's words as its title, too.
    let title = || {
        let words: Vec<&str> =
            marks.iter().flat_map(PageMark::words).map(|words| words.words.as_str()).collect();
        Some(words.join(" "))
    };
    match is {
        PartOfPage::Title => Tag::Hn(NonZeroU16::MIN, title()).into(),
        PartOfPage::Heading => Tag::Hn(NonZeroU16::MIN.saturating_add(1), title()).into(),
        PartOfPage::Paragraph => Tag::P.into(),
        PartOfPage::Figure(words) => Tag::Figure(Some(words.clone())).into(),
        PartOfPage::Table => Tag::Table.into(),
        PartOfPage::Row => Tag::TR.into(),
        PartOfPage::HeadCell => Tag::TH(TableHeaderScope::Column).into(),
        PartOfPage::Cell => Tag::TD.into(),
    }
}

/// Everything of a picture is one piece.
fn whole(surface: &mut Surface<'_>, marks: &[PageMark], letters: &[Letters; 2]) -> Node {
    let id = surface.start_tagged(ContentTag::Other);
    marks.iter().for_each(|mark| put(surface, mark, letters));
    surface.end_tagged();
    id.into()
}

/// Each line of words is a piece; lines and areas among them are decoration. A cell without words is a piece of nothing, so
/// that its row keeps its cells.
fn lines(surface: &mut Surface<'_>, marks: &[PageMark], letters: &[Letters; 2]) -> Vec<Node> {
    let mut pieces: Vec<Node> = Vec::new();
    for mark in marks {
        if let PageMark::Words(_) = mark {
            pieces.push(piece(surface, Some(mark), letters));
        } else {
            node(surface, mark, letters);
        }
    }
    if pieces.is_empty() {
        pieces.push(piece(surface, None, letters));
    }
    pieces
}

fn piece(surface: &mut Surface<'_>, mark: Option<&PageMark>, letters: &[Letters; 2]) -> Node {
    let id = surface.start_tagged(ContentTag::Span(SpanTag::empty()));
    if let Some(mark) = mark {
        put(surface, mark, letters);
    }
    surface.end_tagged();
    id.into()
}
