//! The texts that the app says, found in its code.
//!
//! Every word that is shown stands in `ui/words`, and every text there either goes through a call
//! that asks the catalogue or is a `const`, which is never translated: a symbol, an identifier.

use super::floor;
use proc_macro2::{Delimiter, TokenStream, TokenTree};
use std::collections::BTreeMap;

/// What a catalogue is asked for.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Asked {
    /// Which is meant, where one English word means two things.
    pub context: Option<String>,
    /// The English, for one where it counts.
    pub text: String,
    /// The English for many.
    pub many: Option<String>,
}

/// Everything that is asked for, with the files that ask; and what is said past every catalogue.
pub fn all() -> (BTreeMap<Asked, Vec<String>>, Vec<String>) {
    let mut found = Found::default();
    for (path, text) in floor("ui") {
        if !path.starts_with("ui/words") || path.ends_with("/tests.rs") {
            continue;
        }
        let tokens = text.parse().unwrap_or_else(|error| panic!("{path}: {error}"));
        found.file = path;
        found.walk(tokens);
    }
    // What a source says of a number stands beside the number; citations are never translated.
    for (path, text) in floor("protocol") {
        if path.ends_with("/tests.rs") || path == "protocol/source.rs" {
            continue;
        }
        let code = text.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
        found.file = path;
        found.settings(code.parse().unwrap());
    }
    (found.asked, found.past)
}

#[derive(Default)]
struct Found {
    file: String,
    asked: BTreeMap<Asked, Vec<String>>,
    past: Vec<String>,
}

impl Found {
    fn walk(&mut self, tokens: TokenStream) {
        let tokens: Vec<_> = tokens.into_iter().collect();
        let mut at = 0;
        while let Some(token) = tokens.get(at) {
            let rest = &tokens[at..];
            match token {
                // An attribute, and what stands behind one that is for tests alone.
                TokenTree::Punct(sign) if sign.as_char() == '#' => {
                    at += 1 + usize::from(is_sign(rest.get(1), '!'));
                    let told = tokens.get(at).map(ToString::to_string).unwrap_or_default();
                    if told.replace(' ', "") == "[cfg(test)]" {
                        at += 1 + item(&tokens[at + 1..]);
                    }
                }
                // What is constant is not translated, and a macro says nothing by itself.
                TokenTree::Ident(word)
                    if word == "macro_rules"
                        || (word == "const" && !is_word(rest.get(1), "fn")) =>
                {
                    at += item(rest);
                }
                TokenTree::Ident(word) if is_sign(rest.get(1), '!') => {
                    if let Some(TokenTree::Group(given)) = rest.get(2) {
                        match word.to_string().as_str() {
                            "words" => self.phrases(given.stream()),
                            "tr" => self.message(given.stream()),
                            _ => self.walk(given.stream()),
                        }
                        at += 2;
                    }
                }
                TokenTree::Ident(word) if word == "spoken" || word == "spoken_as" => {
                    if let Some(TokenTree::Group(given)) = rest.get(1) {
                        let mut texts = texts_in(given.stream());
                        let context = (word == "spoken_as").then(|| texts.remove(0));
                        for text in texts {
                            self.ask(Asked { context: context.clone(), text, many: None });
                        }
                        at += 1;
                    }
                }
                TokenTree::Group(list)
                    if list.delimiter() == Delimiter::Bracket && each(&rest[1..]) =>
                {
                    for text in texts_in(list.stream()) {
                        self.ask(Asked { context: None, text, many: None });
                    }
                }
                TokenTree::Group(group) => self.walk(group.stream()),
                TokenTree::Literal(_) => {
                    // Markup is the plain page's own.
                    if let Some(text) = text(token).filter(|text| says(text) && !text.contains('<'))
                    {
                        self.past.push(format!("{}: {text:?}", self.file));
                    }
                }
                TokenTree::Ident(_) | TokenTree::Punct(_) => {}
            }
            at += 1;
        }
    }

    /// Every text but an attribute's and a constant that is one: the name of a batch.
    fn settings(&mut self, tokens: TokenStream) {
        let tokens: Vec<_> = tokens.into_iter().collect();
        let mut at = 0;
        while let Some(token) = tokens.get(at) {
            let rest = &tokens[at..];
            match token {
                TokenTree::Punct(sign) if sign.as_char() == '#' => {
                    at += 1 + usize::from(is_sign(rest.get(1), '!'));
                }
                TokenTree::Ident(word) if word == "const" && is_word(rest.get(4), "str") => {
                    at += item(rest);
                }
                TokenTree::Group(group) => self.settings(group.stream()),
                TokenTree::Literal(_) => {
                    if let Some(text) = text(token) {
                        self.ask(Asked { context: None, text, many: None });
                    }
                }
                TokenTree::Ident(_) | TokenTree::Punct(_) => {}
            }
            at += 1;
        }
    }

    /// `name = "text";` or `name = "text" as "context";`, again and again.
    fn phrases(&mut self, tokens: TokenStream) {
        let tokens: Vec<_> = tokens.into_iter().collect();
        for phrase in tokens.split(|token| is_sign(Some(token), ';')) {
            let mut texts: Vec<_> = phrase.iter().filter_map(text).collect();
            let context = (texts.len() == 2).then(|| texts.remove(1));
            for text in texts {
                self.ask(Asked { context: context.clone(), text, many: None });
            }
        }
    }

    /// `"text"`, `"context" => "text"`, `"one" | "many" % n`, each with what is put into it.
    fn message(&mut self, tokens: TokenStream) {
        let tokens: Vec<_> = tokens.into_iter().collect();
        let end = tokens.iter().position(|token| is_sign(Some(token), ','));
        let (head, given) = tokens.split_at(end.unwrap_or(tokens.len()));
        let mut texts: Vec<_> = head.iter().filter_map(text).collect();
        assert!(!texts.is_empty(), "{}: a message without a text", self.file);
        let named = head.iter().any(|token| is_sign(Some(token), '>'));
        let counts = head.iter().any(|token| is_sign(Some(token), '|'));
        let context = named.then(|| texts.remove(0));
        let many = counts.then(|| texts.remove(1));
        // One without a letter is asked for too: a language may write "5." for "5".
        self.note(Asked { context, text: texts.remove(0), many });
        self.walk(given.iter().cloned().collect());
    }

    fn ask(&mut self, asked: Asked) {
        // "mm" is as much a word as any; "–" is none.
        if says(&asked.text) {
            self.note(asked);
        }
    }

    fn note(&mut self, asked: Asked) {
        let files = self.asked.entry(asked).or_default();
        if !files.contains(&self.file) {
            files.push(self.file.clone());
        }
    }
}

fn is_sign(token: Option<&TokenTree>, sign: char) -> bool {
    matches!(token, Some(TokenTree::Punct(punct)) if punct.as_char() == sign)
}

fn is_word(token: Option<&TokenTree>, word: &str) -> bool {
    matches!(token, Some(TokenTree::Ident(ident)) if ident == word)
}

/// Whether a list before these goes through the catalogue, one by one.
fn each(rest: &[TokenTree]) -> bool {
    let [dot, map, TokenTree::Group(by), ..] = rest else { return false };
    is_sign(Some(dot), '.') && is_word(Some(map), "map") && by.stream().to_string() == "spoken"
}

/// How many tokens make the item that begins here: to its semicolon or its braces.
fn item(tokens: &[TokenTree]) -> usize {
    let ends = |token: &TokenTree| match token {
        TokenTree::Group(group) => group.delimiter() == Delimiter::Brace,
        other => is_sign(Some(other), ';'),
    };
    tokens.iter().position(ends).unwrap_or(tokens.len())
}

/// Every text below, whatever stands between.
fn texts_in(tokens: TokenStream) -> Vec<String> {
    let mut texts = Vec::new();
    for token in tokens {
        match &token {
            TokenTree::Group(group) => texts.extend(texts_in(group.stream())),
            other => texts.extend(text(other)),
        }
    }
    texts
}

/// What a string says, its escapes read.
fn text(token: &TokenTree) -> Option<String> {
    let TokenTree::Literal(literal) = token else { return None };
    syn::parse_str::<syn::LitStr>(&literal.to_string()).ok().map(|text| text.value())
}

/// The places of a text that something is put into, in their order.
pub fn places(text: &str) -> Vec<&str> {
    text.split('{').skip(1).filter_map(|rest| rest.split('}').next()).collect()
}

/// Whether anything is said outside the places.
fn says(text: &str) -> bool {
    let mut within = false;
    text.chars().any(|sign| {
        within = (within || sign == '{') && sign != '}';
        !within && sign.is_alphabetic()
    })
}
