"""Pure roof-framing geometry: a cut is a plane, every mark a view of it in board axes."""
