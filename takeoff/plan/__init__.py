"""What the builder writes: the plan's schema, the reader that finds every error, and a plan to begin with.

Duty
    Takes a file, gives a frozen `Plan` whose lengths are inches (`read.read_plan`), with warnings and notes; or raises
    `PlanError` with all that is wrong. Input is data only: bounded in size and depth, nothing from outside its folder.
    `footprint.footprint` gives a building's outline counter-clockwise with its named sides, `Walls.for_side` one
    side's walls with everything decided.

How a plan is read
    `tree` makes a tree with the line and column of every value, `schema` (with `walls`, `roof`, `openings`, `fields`)
    says what may stand where, `mismatch` puts the schema's errors into a builder's words, `verify` asks the rules that
    tie parts together.

How to add
    A key: a field with its docstring in the schema; the docstring is what an editor shows, and says what holds when the
    key is left out. A rule: a function of a building in a ``rules_`` module, and its line in `verify.RULES`. A kind of
    value: a type in `fields`. For each, a plan in ``tests/plan/bad`` whose faulty line names the rule.

Rules, by the ids that findings carry

    id                    severity  what
    plan.unreadable       error     the file is missing, a folder, or not to be opened
    plan.too-large        error     the file, or its nesting, is larger than any plan
    plan.encoding         error     not UTF-8 text
    plan.syntax           error     not YAML: tabs, brackets, colons, a second document
    plan.empty            error     nothing in it
    plan.not-a-mapping    error     a list or a single value where keys are expected
    plan.reference        error     anchors, aliases, merge keys, tags
    plan.duplicate-key    error     a key twice in one block
    plan.unknown-key      error     a key that block doesn't have
    plan.missing-key      error     a key that has to be there
    plan.wrong-value      error     a value that can't be read, is out of bounds, or isn't known
    plan.name             error     two buildings of one name
    plan.side             error     a side that isn't there, names that don't fit the outline, gables not opposite
    plan.geometry         error     an outline that crosses itself, repeats corners, or is not one for this roof
    plan.opening          error     an opening out of its wall or slope, over another, or without room for a header
    plan.slope            error     slopes told by outline that overlap, leave a gap, or have no eave along a side
    plan.dormer           error     a dormer too near its wall, too narrow, low or steep, or with a window off its front
    plan.porch            error     a porch past its wall, over another, or without posts that carry its beam
    plan.partition        error     a partition outside, too short, in another wall, or ending in an opening
    plan.backing          error     blocks for backing past the ends of their wall or in its plates
    plan.frame            error     balloon framing where no rake is
    plan.pony             error     a pony wall under no floor, off its side, or on a foundation too high or sloping
    plan.top              error     a stepped or raked top where the roof says how high a wall is, or out of order
    plan.grade            error     a size that isn't made in that grade
    plan.roof             error     a roof member that can't be cut or has nothing to hold on to
    plan.floor            error     a loft outside the walls, a girder or an opening that has no room in its floor
    plan.prices           error     a price list or a list of boards on hand that isn't in the plan's folder
    plan.doubtful         warning   possible, and hardly meant
    sheathing.thickness   warning   two sheets of unlike thickness in one roof
    plan.left-out         note      something usual that isn't ordered because it isn't written
"""
