//! Rust text into tokens, comments and the insides of strings left out, and the paths among them.
//!
//! Reads just enough of the language for the tidy checks; it knows no rule itself. Start at
//! [`tokens`] and [`paths_from`].

/// A word, a `::`, or a single sign; a string or character literal is `""`.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Token {
    pub(crate) text: String,
    /// Counted from 1.
    pub(crate) line: usize,
}

/// A path as written, a group being one path for each of its members.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Path {
    pub(crate) segments: Vec<String>,
    /// The name it brings in: its last segment, or the one after `as`.
    pub(crate) name: String,
    pub(crate) line: usize,
}

/// Splits Rust text.
pub(crate) fn tokens(text: &str) -> Vec<Token> {
    let mut reader = Reader { chars: text.chars().collect(), at: 0, line: 1, found: Vec::new() };
    while reader.at < reader.chars.len() {
        reader.next();
    }
    reader.found
}

struct Reader {
    chars: Vec<char>,
    at: usize,
    line: usize,
    found: Vec<Token>,
}

fn starts_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

impl Reader {
    fn peek(&self, ahead: usize) -> char {
        self.chars.get(self.at + ahead).copied().unwrap_or('\0')
    }

    fn step(&mut self) {
        if self.peek(0) == '\n' {
            self.line += 1;
        }
        self.at += 1;
    }

    fn push(&mut self, text: impl Into<String>, line: usize) {
        self.found.push(Token { text: text.into(), line });
    }

    fn next(&mut self) {
        let line = self.line;
        match (self.peek(0), self.peek(1)) {
            ('/', '/') => self.skip_line(),
            ('/', '*') => self.skip_block(),
            ('"', _) => self.string(line),
            ('\'', _) => self.quote(line),
            (':', ':') => {
                self.push("::", line);
                self.at += 2;
            }
            (c, _) if starts_word(c) => self.word(line),
            (c, _) => {
                if !c.is_whitespace() {
                    self.push(c, line);
                }
                self.step();
            }
        }
    }

    fn skip_line(&mut self) {
        while self.at < self.chars.len() && self.peek(0) != '\n' {
            self.step();
        }
    }

    fn skip_block(&mut self) {
        let mut depth = 0;
        while self.at < self.chars.len() {
            match (self.peek(0), self.peek(1)) {
                ('/', '*') => {
                    depth += 1;
                    self.at += 2;
                }
                ('*', '/') => {
                    depth -= 1;
                    self.at += 2;
                    if depth == 0 {
                        return;
                    }
                }
                _ => self.step(),
            }
        }
    }

    fn string(&mut self, line: usize) {
        self.step();
        while self.at < self.chars.len() && self.peek(0) != '"' {
            if self.peek(0) == '\\' {
                self.step();
            }
            self.step();
        }
        self.step();
        self.push("\"\"", line);
    }

    /// A character literal, or the tick of a lifetime.
    fn quote(&mut self, line: usize) {
        if self.peek(1) == '\\' {
            self.at += 3;
            while self.at < self.chars.len() && self.peek(0) != '\'' {
                self.step();
            }
            self.step();
            self.push("\"\"", line);
        } else if self.peek(2) == '\'' {
            self.step();
            self.step();
            self.step();
            self.push("\"\"", line);
        } else {
            self.step();
        }
    }

    fn word(&mut self, line: usize) {
        let start = self.at;
        while starts_word(self.peek(0)) {
            self.at += 1;
        }
        let word: String = self.chars[start..self.at].iter().collect();
        let hashes = (0..).take_while(|&ahead| self.peek(ahead) == '#').count();
        let raw = matches!(word.as_str(), "r" | "br" | "cr") && self.peek(hashes) == '"';
        if raw {
            self.raw_string(hashes, line);
        } else if matches!(word.as_str(), "b" | "c") && self.peek(0) == '"' {
            self.string(line);
        } else {
            self.push(word, line);
        }
    }

    fn raw_string(&mut self, hashes: usize, line: usize) {
        self.at += hashes + 1;
        while self.at < self.chars.len() {
            let closes = self.peek(0) == '"' && (1..=hashes).all(|ahead| self.peek(ahead) == '#');
            if closes {
                break;
            }
            self.step();
        }
        self.at += hashes + 1;
        self.push("\"\"", line);
    }
}

/// The text of a token, empty past the end.
pub(crate) fn text_at(tokens: &[Token], i: usize) -> &str {
    tokens.get(i).map_or("", |token| token.text.as_str())
}

/// True where the tokens from `i` read as `wanted`.
pub(crate) fn reads(tokens: &[Token], i: usize, wanted: &[&str]) -> bool {
    wanted.iter().enumerate().all(|(k, text)| text_at(tokens, i + k) == *text)
}

/// The index just past the bracket that closes the one at `open`.
pub(crate) fn past_closing(tokens: &[Token], open: usize) -> usize {
    let mut depth = 0;
    for (i, token) in tokens.iter().enumerate().skip(open) {
        match token.text.as_str() {
            "(" | "[" | "{" => depth += 1,
            ")" | "]" | "}" => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return i + 1;
        }
    }
    tokens.len()
}

/// The tokens without what stands under `#[cfg(test)]`.
pub(crate) fn without_tests(tokens: &[Token]) -> Vec<Token> {
    let mut kept = Vec::new();
    let mut i = 0;
    while i < tokens.len() {
        if !reads(tokens, i, &["#", "[", "cfg", "(", "test", ")", "]"]) {
            kept.push(tokens[i].clone());
            i += 1;
            continue;
        }
        while i < tokens.len() && !matches!(text_at(tokens, i), "{" | ";") {
            i += 1;
        }
        i = if text_at(tokens, i) == "{" { past_closing(tokens, i) } else { i + 1 };
    }
    kept
}

/// Every path that begins with `root::`, the root left off.
pub(crate) fn paths_from(tokens: &[Token], root: &str) -> Vec<Path> {
    let mut found = Vec::new();
    for i in 0..tokens.len() {
        let begins = reads(tokens, i, &[root, "::"]) && (i == 0 || text_at(tokens, i - 1) != "::");
        if begins {
            expand(tokens, i + 2, &[], &mut found);
        }
    }
    found
}

/// Every path of a `use` item, `self::` left off.
pub(crate) fn use_paths(tokens: &[Token]) -> Vec<Path> {
    let mut found = Vec::new();
    for i in 0..tokens.len() {
        if text_at(tokens, i) == "use" {
            let start = if reads(tokens, i + 1, &["self", "::"]) { i + 3 } else { i + 1 };
            expand(tokens, start, &[], &mut found);
        }
    }
    found
}

/// Follows one branch of a path from `i`; returns the index after it.
fn expand(tokens: &[Token], mut i: usize, before: &[String], found: &mut Vec<Path>) -> usize {
    let mut segments = before.to_vec();
    let line = tokens.get(i).map_or(0, |token| token.line);
    loop {
        if text_at(tokens, i) == "{" {
            let end = past_closing(tokens, i);
            i += 1;
            while i + 1 < end {
                i = expand(tokens, i, &segments, found).max(i + 1);
                if text_at(tokens, i) == "," {
                    i += 1;
                }
            }
            return end;
        }
        segments.push(text_at(tokens, i).to_owned());
        i += 1;
        let goes_on = text_at(tokens, i) == "::" && text_at(tokens, i + 1) != "<";
        if !goes_on {
            break;
        }
        i += 1;
    }
    if segments.last().is_some_and(|last| last == "self") {
        segments.pop();
    }
    let mut name = segments.last().cloned().unwrap_or_default();
    if text_at(tokens, i) == "as" {
        name = text_at(tokens, i + 1).to_owned();
        i += 2;
    }
    found.push(Path { segments, name, line });
    i
}
