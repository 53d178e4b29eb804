// Package order makes from the parts to make what has to be got: what each is
// sawn from, which bars to buy, and the list of everything to buy with what the
// owner has noted of it.
//
//	blanks := order.CutList(needs, order.Workshop{})     // what each part is sawn from
//	bars, err := order.Bars(blanks, order.Workshop{})    // which bars, and which piece from which
//	list := order.BuyList(needs, bars, marks)            // bearings, screws, oil, bar
//	err = order.WriteBuyCSV(w, list)
//
// A blank is a length of bar with what is faced, parted off and held on it. Bars
// are found by [MakeNest], which buys the least and says whether that is proved.
// Prices are kept as they were typed; there is no rate between currencies here,
// so sums are told for each of them.
package order
