console.log('hello')
throw new Error('thrown on purpose')
