-- Letters with accents count as those without (Unicode 6.1, `unicode61`).
CREATE VIRTUAL TABLE line USING fts5(words, content = '', tokenize = 'unicode61 remove_diacritics 2');
CREATE VIRTUAL TABLE line_word USING fts5vocab(line, instance);
-- What is asked, for as long as it is split.
CREATE VIRTUAL TABLE asked USING fts5(words, tokenize = 'unicode61 remove_diacritics 2');
CREATE VIRTUAL TABLE asked_word USING fts5vocab(asked, instance);
