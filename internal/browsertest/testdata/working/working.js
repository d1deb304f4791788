const find = selector => document.querySelector(selector)

find('input').addEventListener('input', event => {
	find('#twice').textContent = 2 * Number(event.target.value)
})

find('button').addEventListener('click', () => {
	const end = Date.now() + 15 * 60 * 1000
	const show = () => {
		const seconds = Math.ceil((end - new Date()) / 1000)
		find('#left').textContent = seconds > 0 ? `${Math.floor(seconds / 60)}:${seconds % 60}` : 'time is up'
	}
	setInterval(show, 50)
	document.addEventListener('visibilitychange', show)
})

find('#stored').textContent = `visit ${localStorage.visits = 1 + Number(localStorage.visits ?? 0)}`
find('#media').textContent = ['(prefers-color-scheme: dark)', 'print', '(max-width: 320px)']
	.filter(query => matchMedia(query).matches).join(', ')
