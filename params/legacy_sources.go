package params

import "example.com/furrow/standards"

func jis2013(clause string) standards.Ref {
	return standards.Ref{Doc: "JIS B 0601:2013", Clause: clause, Basis: standards.Excerpt}
}

// trade is for what is in use without a public clause.
func trade(doc, clause string) standards.Ref {
	return standards.Ref{Doc: doc, Clause: clause, Basis: standards.Trade}
}

// iso4287Older is the vocabulary of 1984 that ISO 4287:1997 replaced; some of its parameters are still asked for.
func iso4287Older() standards.Ref {
	return standards.Ref{Doc: "ISO 4287-1:1984", Basis: standards.Memory}
}

func en10049() standards.Ref {
	return standards.Ref{Doc: "EN 10049:2013", Basis: standards.Memory}
}
