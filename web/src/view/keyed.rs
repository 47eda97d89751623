//! The wanted elements, and how the page gets them.
//!
//! A view says what should be on the page. What was there before is remembered, and only the differences are touched,
//! so the focus, half-typed text and open parts stay. An element with an id is found again wherever it has moved among
//! its siblings. Text always goes in as text, with its invisible characters made visible.

use std::borrow::Cow;
use std::cell::RefCell;
use std::collections::{BTreeMap, VecDeque};

use rules_core::drawing::{Element as Drawn, Inner};
use rules_core::text::Visible;
use wasm_bindgen::JsCast;
use web_sys::{Document, Element, HtmlInputElement, HtmlOptionElement, Node};

/// A wanted element.
#[derive(Debug, Clone, PartialEq)]
pub struct El {
    tag: &'static str,
    /// Whether it is part of a drawing.
    svg: bool,
    attributes: Vec<(&'static str, Cow<'static, str>)>,
    children: Vec<Piece>,
}

/// A child of an element.
#[derive(Debug, Clone, PartialEq)]
pub enum Piece {
    /// Text.
    Text(String),
    /// An element.
    El(El),
}

/// An empty element of this name.
pub fn el(tag: &'static str) -> El {
    El {
        tag,
        svg: false,
        attributes: Vec::new(),
        children: Vec::new(),
    }
}

/// A button with its act.
pub fn button(act: &'static str) -> El {
    el("button").set("type", "button").does(act)
}

/// An empty element of a drawing.
pub fn svg(tag: &'static str) -> El {
    El {
        svg: true,
        ..el(tag)
    }
}

/// An element of the library's drawing; nothing hides in its texts.
impl From<Drawn> for El {
    fn from(element: Drawn) -> Self {
        let attributes = element.attributes.into_iter();
        let children = match element.inner {
            Inner::Empty => Vec::new(),
            Inner::Letters(text) if text.is_empty() => Vec::new(),
            Inner::Letters(text) => vec![Piece::Text(text)],
            Inner::Elements(inner) => {
                let inner = inner.into_iter();
                inner.map(|element| Piece::El(element.into())).collect()
            }
        };
        Self {
            tag: element.name,
            svg: true,
            attributes: attributes
                .map(|(name, value)| (name, value.into()))
                .collect(),
            children,
        }
    }
}

impl El {
    /// With a value for an attribute.
    pub fn set(mut self, name: &'static str, value: impl Into<Cow<'static, str>>) -> Self {
        self.attributes.push((name, value.into()));
        self
    }

    /// With an attribute without a value, if `so`.
    pub fn is(self, name: &'static str, so: bool) -> Self {
        if so { self.set(name, "") } else { self }
    }

    /// With a value for an attribute, if `so`.
    pub fn set_if(self, name: &'static str, so: bool, value: &'static str) -> Self {
        if so { self.set(name, value) } else { self }
    }

    /// With a class.
    pub fn class(self, class: &'static str) -> Self {
        self.set("class", class)
    }

    /// With an id, which finds it again.
    pub fn id(self, id: impl Into<Cow<'static, str>>) -> Self {
        self.set("id", id)
    }

    /// With the act that a click does, or, in a field, a change.
    pub fn does(self, act: &'static str) -> Self {
        self.set("data-do", act)
    }

    /// In English, whatever the page's language: the library's own words.
    pub fn said(self) -> Self {
        self.set("lang", "en")
    }

    /// With something added at its end.
    pub fn with(mut self, within: impl Within) -> Self {
        within.put(&mut self.children);
        self
    }

    /// With several things added at its end.
    pub fn each<W: Within>(self, all: impl IntoIterator<Item = W>) -> Self {
        all.into_iter().fold(self, El::with)
    }

    /// What an attribute says.
    pub fn get(&self, name: &str) -> Option<&str> {
        let found = self.attributes.iter().find(|(known, _)| *known == name);
        found.map(|(_, value)| value.as_ref())
    }

    /// With another value for an attribute, or without it.
    pub fn change(mut self, name: &'static str, value: Option<Cow<'static, str>>) -> Self {
        self.attributes.retain(|(known, _)| *known != name);
        match value {
            Some(value) => self.set(name, value),
            None => self,
        }
    }

    /// With each element in it as this makes it, the innermost first; without those of which it makes nothing.
    pub fn remade(mut self, make: &impl Fn(El) -> Option<El>) -> Option<Self> {
        let inner = self.children.into_iter();
        let inner = inner.filter_map(|piece| match piece {
            Piece::El(child) => child.remade(make).map(Piece::El),
            text => Some(text),
        });
        self.children = inner.collect();
        make(self)
    }

    /// Whether it holds something a person enters, which may differ from what the page last put there.
    fn is_entered(&self) -> bool {
        matches!(self.tag, "input" | "option") || self.children.iter().any(Piece::is_entered)
    }

    /// The element of this id in it.
    fn within(&mut self, id: &str) -> Option<&mut El> {
        if self.get("id") == Some(id) {
            return Some(self);
        }
        self.children.iter_mut().find_map(|piece| match piece {
            Piece::El(child) => child.within(id),
            Piece::Text(_) => None,
        })
    }
}

impl Piece {
    fn is_entered(&self) -> bool {
        matches!(self, Piece::El(child) if child.is_entered())
    }

    fn id(&self) -> Option<&str> {
        match self {
            Piece::El(child) => child.get("id"),
            Piece::Text(_) => None,
        }
    }

    /// Whether this can be turned into the wanted one.
    fn is_like(&self, wanted: &Piece) -> bool {
        match (self, wanted) {
            (Piece::Text(_), Piece::Text(_)) => true,
            (Piece::El(was), Piece::El(wanted)) => {
                was.tag == wanted.tag && was.get("id") == wanted.get("id")
            }
            _ => false,
        }
    }
}

/// Something that can be put into an element.
pub trait Within {
    /// Puts it after the others.
    fn put(self, pieces: &mut Vec<Piece>);
}

impl Within for El {
    fn put(self, pieces: &mut Vec<Piece>) {
        pieces.push(Piece::El(self));
    }
}

impl Within for Piece {
    fn put(self, pieces: &mut Vec<Piece>) {
        pieces.push(self);
    }
}

impl Within for &str {
    fn put(self, pieces: &mut Vec<Piece>) {
        if !self.is_empty() {
            pieces.push(Piece::Text(visible(self)));
        }
    }
}

impl Within for String {
    fn put(self, pieces: &mut Vec<Piece>) {
        self.as_str().put(pieces);
    }
}

impl Within for &String {
    fn put(self, pieces: &mut Vec<Piece>) {
        self.as_str().put(pieces);
    }
}

impl<W: Within> Within for Option<W> {
    fn put(self, pieces: &mut Vec<Piece>) {
        if let Some(within) = self {
            within.put(pieces);
        }
    }
}

impl<W: Within> Within for Vec<W> {
    fn put(self, pieces: &mut Vec<Piece>) {
        self.into_iter().for_each(|within| within.put(pieces));
    }
}

/// The text with a sign in place of each invisible character.
pub fn visible(text: &str) -> String {
    if text.bytes().all(|byte| (b' '..=b'~').contains(&byte)) {
        return text.to_owned();
    }
    let lines = text
        .split('\n')
        .map(|line| Visible::from(line).trim_end_matches('\n').to_owned());
    lines.collect::<Vec<_>>().join("\n")
}

/// The name of the language that drawings are written in.
const SVG: &str = "http://www.w3.org/2000/svg";

thread_local! {
    /// What is on the page, by the id of its outermost element.
    static SHOWN: RefCell<BTreeMap<&'static str, El>> = const { RefCell::new(BTreeMap::new()) };
}

/// Turns the element of this id, which is on the page, into the wanted one.
pub fn show(id: &'static str, wanted: El) {
    let wanted = wanted.id(id);
    let Some(dom) = element(id) else { return };
    // Events may fire while the page changes, so nothing is borrowed meanwhile.
    let was = SHOWN.with_borrow_mut(|shown| shown.remove(id));
    mend(&dom, &was.unwrap_or_else(|| el(wanted.tag)), &wanted);
    SHOWN.with_borrow_mut(|shown| shown.insert(id, wanted));
}

/// Turns an element inside one that [`show`] put on the page into the wanted one; it keeps its id.
pub fn show_within(shown_id: &'static str, wanted: El) {
    let id = wanted.get("id").unwrap_or_default().to_owned();
    let Some(dom) = element(&id) else { return };
    let Some(mut root) = SHOWN.with_borrow_mut(|shown| shown.remove(shown_id)) else {
        return;
    };
    if let Some(was) = root.within(&id) {
        mend(&dom, was, &wanted);
        *was = wanted;
    }
    SHOWN.with_borrow_mut(|shown| shown.insert(shown_id, root));
}

/// The document of the page.
pub fn document() -> Option<Document> {
    web_sys::window()?.document()
}

/// The element of this id.
pub fn element(id: &str) -> Option<Element> {
    document()?.get_element_by_id(id)
}

// This fails only for an invalid name, and no view writes one.

fn mend(dom: &Element, was: &El, wanted: &El) {
    if was == wanted && !wanted.is_entered() {
        return;
    }
    for (name, value) in &wanted.attributes {
        if was.get(name) != Some(value) {
            let _ = dom.set_attribute(name, value);
        }
    }
    // What a person opened stays open.
    let gone = |name: &&str| *name != "open" && wanted.get(name).is_none();
    for name in was.attributes.iter().map(|(name, _)| *name).filter(gone) {
        let _ = dom.remove_attribute(name);
    }
    mend_children(dom, was, wanted);
    enter(dom, wanted);
}

/// What is alike at both ends is left alone.
fn mend_children(dom: &Element, was: &El, wanted: &El) {
    let mut standing = standing(dom, was);
    let mut wanted = wanted.children.as_slice();
    let stays = |was: &Piece, next: &Piece| was == next && !next.is_entered();
    while let (Some((_, was)), Some((next, rest))) = (standing.front(), wanted.split_first())
        && stays(was, next)
    {
        standing.pop_front();
        wanted = rest;
    }
    let mut behind = None;
    while let (Some((node, was)), Some((next, rest))) = (standing.back(), wanted.split_last())
        && stays(was, next)
    {
        behind = Some(node.clone());
        standing.pop_back();
        wanted = rest;
    }
    for next in wanted {
        match taken(&mut standing, next) {
            Some((node, was, moved)) => {
                if moved {
                    put_before(dom, &node, &standing, behind.as_ref());
                }
                mend_piece(&node, was, next);
            }
            None => {
                if let Some(made) = made(next) {
                    put_before(dom, &made, &standing, behind.as_ref());
                }
            }
        }
    }
    for (node, _) in standing {
        let _ = dom.remove_child(&node);
    }
}

/// The nodes in an element, each with what it was made from. If something else has changed them, all are removed.
fn standing<'w>(dom: &Element, was: &'w El) -> VecDeque<(Node, &'w Piece)> {
    let first = dom.first_child();
    let nodes: Vec<Node> = std::iter::successors(first, Node::next_sibling).collect();
    if nodes.len() != was.children.len() {
        dom.set_text_content(None);
        return VecDeque::new();
    }
    nodes.into_iter().zip(&was.children).collect()
}

/// Takes out the node to turn into the wanted one: the next one, or the one with its id, which then moves.
fn taken<'w>(
    standing: &mut VecDeque<(Node, &'w Piece)>,
    wanted: &Piece,
) -> Option<(Node, &'w Piece, bool)> {
    let is_next = standing.front().is_some_and(|(_, was)| was.is_like(wanted));
    let at = match (is_next, wanted.id()) {
        (true, _) => 0,
        (false, None) => return None,
        (false, Some(_)) => standing.iter().position(|(_, was)| was.is_like(wanted))?,
    };
    let (node, was) = standing.remove(at)?;
    Some((node, was, at > 0))
}

fn put_before(
    dom: &Element,
    node: &Node,
    standing: &VecDeque<(Node, &Piece)>,
    behind: Option<&Node>,
) {
    let next = standing.front().map(|(next, _)| next);
    let _ = dom.insert_before(node, next.or(behind));
}

fn mend_piece(node: &Node, was: &Piece, wanted: &Piece) {
    match (was, wanted) {
        (Piece::Text(was), Piece::Text(wanted)) if was != wanted => {
            node.set_node_value(Some(wanted));
        }
        (Piece::El(was), Piece::El(wanted)) => {
            if let Some(dom) = node.dyn_ref() {
                mend(dom, was, wanted);
            }
        }
        _ => {}
    }
}

fn made(wanted: &Piece) -> Option<Node> {
    let document = document()?;
    let wanted = match wanted {
        Piece::Text(text) => return Some(document.create_text_node(text).into()),
        Piece::El(wanted) => wanted,
    };
    let dom = match wanted.svg {
        true => document.create_element_ns(Some(SVG), wanted.tag),
        false => document.create_element(wanted.tag),
    };
    let dom = dom.ok()?;
    for (name, value) in &wanted.attributes {
        let _ = dom.set_attribute(name, value);
    }
    for child in wanted.children.iter().filter_map(made) {
        let _ = dom.append_child(&child);
    }
    enter(&dom, wanted);
    Some(dom.into())
}

/// Sets the value of a field, unless somebody is typing in it.
fn enter(dom: &Element, wanted: &El) {
    if !matches!(wanted.tag, "input" | "option") {
        return;
    }
    if let Some(field) = dom.dyn_ref::<HtmlInputElement>() {
        let ticked = matches!(wanted.get("type"), Some("checkbox" | "radio"));
        let is_typed = document().and_then(|page| page.active_element()).as_ref() == Some(dom);
        if ticked {
            field.set_checked(wanted.get("checked").is_some());
        } else if !is_typed {
            field.set_value(wanted.get("value").unwrap_or_default());
        }
    } else if let Some(option) = dom.dyn_ref::<HtmlOptionElement>() {
        option.set_selected(wanted.get("selected").is_some());
    }
}
