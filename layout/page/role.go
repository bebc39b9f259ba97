package page

import "chablon/labels/role"

// Role and the roles are those of labels/role; sheets that are not yet made
// with them name them here.
type Role = role.Role

// The roles.
const (
	Name      = role.Name
	List      = role.List
	Allergens = role.Allergens
	May       = role.May
	Quid      = role.Quid
	Net       = role.Net
	Date      = role.Date
	Keep      = role.Keep
	Operator  = role.Operator
	Origin    = role.Origin
	Strength  = role.Strength
	Nutrition = role.Nutrition
	Batch     = role.Batch
	Statement = role.Statement
	Serial    = role.Serial
	Bars      = role.Bars
	Digits    = role.Digits
	Furniture = role.Furniture
	Step      = role.Step
	Amount    = role.Amount
	Heat      = role.Heat
	Limit     = role.Limit
	Note      = role.Note
	Draft     = role.Draft
	Trim      = role.Trim
)
