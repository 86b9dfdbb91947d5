"""The ear: from what men say about a cut to claims, by a lexicon, in any order of words.

May import: layout, say; of its own room only `claim`.
Start reading at `hearing`, then `trade_tokens`; `second_hearing` tries what else may
be meant; the words themselves stand in `lexicon.toml`.
"""
