package standards

import "errors"

// ErrNeedClass says that the settings of a parameter do not follow from its limit.
var ErrNeedClass = errors.New("setting class or nesting index needed: no default follows from the limit")
