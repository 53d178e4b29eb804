package bench

var dialMethods []Method
